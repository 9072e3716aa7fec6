// Tells at opening whether the journal is shorter than its newest seal says; it must never read the journal for it.
import { join } from 'node:path'
import { cleanText } from '../../domain/clean.ts'
import { realFiles, type Files } from '../files.ts'
import type { Position } from '../position.ts'
import { codeOf } from '../trouble.ts'
import { firstEntry } from './first-entry.ts'
import { parseNote } from './note.ts'
import { newestIn, SEALS } from './seal.ts'
import { parseClaim, type Claim } from './seal-text.ts'

/** Read before the journal is: a seal is made after its line, so another program's hand-over is never taken for a cut. */
export const newestClaim = (folder: string, files: Files = realFiles): Claim | undefined => {
  try {
    return parseClaim(parseNote(newestIn(folder, files) ?? '')?.text ?? '')
  } catch (error) {
    if (codeOf(error) === undefined) throw error
    return undefined
  }
}

/** Why nothing may be recorded after `head`, if the seal knows of other or more lines. */
export const cutSentence = (
  folder: string,
  claim: Claim | undefined,
  head: Position,
  files: Files = realFiles,
): string | undefined => {
  if (claim === undefined || !isCut(claim, head)) return undefined
  const first = firstEntry(folder, files)
  // A seal of another station that was laid here says nothing of this one.
  if (first !== undefined && claim.origin.slice(-16) !== first.hash.slice(0, 16)) return undefined
  const { count, tour } = claim
  const what =
    count > head.seq
      ? `The journal was cut: the seal of tour ${cleanText(tour)} covers ${count} lines and ${head.seq} are left.`
      : `The journal was written anew: line ${count} is not the one that the seal of tour ${cleanText(tour)} covers.`
  return (
    `${what} What is left is shown and may be out of date; nothing can be recorded and nothing was repaired. ` +
    `Keep a copy of ${join(folder, SEALS)} and the journal, bring back a good copy of the station's folder, and ask for "bayboard verify".`
  )
}

const isCut = ({ count, head: sealed }: Claim, { seq, hash }: Position): boolean =>
  count > seq || (count === seq && sealed !== hash)
