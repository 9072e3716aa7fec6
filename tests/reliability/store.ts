// The parts of the program that the journal's promises rest on, as one thing that can be taken whole or broken on purpose; it must never hold a part of its own.
import { cleanText } from '../../src/domain/clean.ts'
import { asCsv } from '../../src/exports/csv.ts'
import { openSession } from '../../src/session.ts'
import { realFiles } from '../../src/store/files.ts'
import { openJournal } from '../../src/store/journal.ts'
import { keptLock } from '../../src/store/kept-lock.ts'
import { formatLine } from '../../src/store/line.ts'
import { withLock } from '../../src/store/lock.ts'
import { checkJournal } from '../../src/store/seals/check-seals.ts'
import { newestSeal } from '../../src/store/seals/seal.ts'
import { makeStation, openStation } from '../../src/store/station.ts'
import { verifyJournal } from '../../src/store/verify.ts'

export const store = {
  asCsv,
  checkJournal,
  cleanText,
  formatLine,
  keptLock,
  makeStation,
  newestSeal,
  openJournal,
  openSession,
  openStation,
  realFiles,
  verifyJournal,
  withLock,
}
export type Store = typeof store
