// Tells a folder that has lost its journal from one that never had a station; it must never change anything in either.
import { existsSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { JOURNAL_NAME } from './journal.ts'
import { KEYS } from './seals/keys.ts'
import { SEALS } from './seals/seal.ts'

/** Keys or seals without a journal: a station was here, and nothing may take its place as if there had been none. */
export function sayLostJournal(folder: string): string | undefined {
  const journal = join(folder, JOURNAL_NAME)
  const isThere = existsSync(journal) && statSync(journal).size > 0
  const left = [KEYS, SEALS].filter((name) => existsSync(join(folder, name)))
  if (isThere || !left.length) return undefined
  return (
    `The journal in ${folder} is empty or gone, but its ${left.join(' and ')} are still here: a station was kept in this folder. ` +
    'Nothing was changed. Bring back a copy of journal.jsonl, or name another folder.'
  )
}
