// Checks a journal together with its seals and tells what each of them disagrees with, and from which line on; it must never change one.
import { cleanText } from '../../domain/clean.ts'
import type { Frame } from '../line.ts'
import { verifyJournal, type Verification, type Verified, type VerifyOptions } from '../verify.ts'
import { sealLines, trustedKeys, type KeyLine, type SealLines } from './journal-keys.ts'
import { openNote, parseNote } from './note.ts'
import { sealsIn, type SealFile } from './seal.ts'
import { isSameStation, originOf, parseClaim, type Claim } from './seal-text.ts'

/** `from` is the first line that may be other than it was; null where that cannot be told or nothing is wrong. */
export type SealCheck = {
  seal: string
  tour: string | null
  lines: number | null
  holds: boolean
  what: string
  from: number | null
}

export type Checked = Verified & {
  seals: SealCheck[]
  against: SealCheck[]
  keys: KeyLine[]
  /** Tours handed over that have no seal in the station's folder. */
  unsealed: string[]
}

/** What an exported log tells without a signature: how many lines there were, and the hash of the last. */
export type Head = Pick<Claim, 'count' | 'head'>
export type Kept = { name: string } & ({ text: string } | { head: Head })

export type CheckOptions = VerifyOptions & {
  /** Seals kept elsewhere, and heads. */
  against?: Kept[]
  /** A public key known from elsewhere; without one the keys are those the journal brings. */
  key?: string
}

type AskedSeal = Omit<SealFile, 'path'> & { claim: Claim | undefined }
type AskedHead = { name: string; claim: Head }

const asked = ({ name, text }: Omit<SealFile, 'path'>): AskedSeal => ({
  name,
  text,
  claim: parseClaim(parseNote(text)?.text ?? ''),
})
const askedKept = (kept: Kept): AskedSeal | AskedHead =>
  'text' in kept ? asked(kept) : { name: kept.name, claim: kept.head }

/** One pass over the journal, however many seals. */
export const checkJournal = (
  folder: string,
  options: CheckOptions = {},
): Exclude<Verification, Verified> | Checked => {
  const { against = [], key, ...verifyOptions } = options
  const [own, kept] = [sealsIn(folder, options.files).map(asked), against.map(askedKept)]
  const wanted = new Set([...own, ...kept].flatMap(({ claim }) => (claim ? [claim.count] : [])))
  const hashes = new Map<number, string>()
  const lines = sealLines()
  const notice = (line: number, text: string, frame: Frame | undefined): void => {
    if (wanted.has(line) && frame !== undefined) hashes.set(line, frame.own)
    lines.notice(line, text, frame)
  }
  const verified = verifyJournal(folder, { ...verifyOptions, notice, wanted })
  if (verified.kind !== 'verified') return verified
  const judge = judgeOf(verified, lines.found, hashes, key)
  const first = [...own, ...kept].map((each) => judge(each, 0))
  const agreed = first.flatMap((each) => (each.holds && each.lines !== null ? [each.lines] : []))
  const judged = (each: AskedSeal | AskedHead): SealCheck =>
    judge(each, Math.max(0, ...agreed.filter((count) => count < (each.claim?.count ?? 0))))
  const sealed = new Set(own.map(({ claim }) => claim?.tour))
  return {
    ...verified,
    seals: own.map(judged),
    against: kept.map(judged),
    keys: lines.found.keys,
    unsealed: lines.found.handOvers.map(({ tour }) => cleanText(tour)).filter((tour) => !sealed.has(tour)),
  }
}

/** Gives the judge of one seal; `agreed` is the number of lines that another seal has confirmed already. */
const judgeOf =
  (
    { lines, faults }: Verified,
    { keys, stationName, firstHash }: SealLines,
    hashes: ReadonlyMap<number, string>,
    known: string | undefined,
  ) =>
  (asked: AskedSeal | AskedHead, agreed: number): SealCheck => {
    const { name, claim } = asked
    const tour = 'text' in asked ? (asked.claim?.tour ?? null) : null
    const check = { seal: name, tour, lines: claim?.count ?? null }
    const fails = (what: string, from: number | null = null): SealCheck => ({
      ...check,
      holds: false,
      what,
      from,
    })
    let byStranger = ''
    if ('text' in asked) {
      const opened = openNote(asked.text, trustedKeys(keys, known))
      if (opened.kind === 'no-note')
        return fails('It is not a signed note: it was cut, altered or never one.')
      if (opened.kind === 'altered')
        return fails('It was altered after it was signed: the signature is not of this text.')
      const own = originOf(stationName, firstHash)
      if (asked.claim && firstHash !== '' && !isSameStation(asked.claim.origin, own)) {
        return fails(
          `It is a seal of another station or of another first line: ${asked.claim.origin}, and this is ${own}.`,
          1,
        )
      }
      const stranger = known === undefined ? 'that this journal does not know' : 'other than the one given'
      if (opened.kind === 'unknown-key') byStranger = ` It is signed by a key ${stranger}.`
    }
    if (claim === undefined) return fails('It is a signed note, and no seal of a journal.')
    const { count, head } = claim
    if (count > lines) {
      const missing = lines + 1 === count ? `Line ${count} is` : `Lines ${lines + 1} to ${count} are`
      return fails(
        `It was made over ${count} lines and the journal has ${lines}: it was shortened. ${missing} missing.${byStranger}`,
        lines + 1,
      )
    }
    if (hashes.get(count) !== head) {
      return fails(
        `Line ${count} is not the line it was made over: the journal was written anew, from line ${agreed + 1} or later on.${byStranger}`,
        agreed + 1,
      )
    }
    // The hash at its end can be whole over lines that are not: then nothing is said to be as it was.
    const fault = faults.find(({ line }) => line <= count)
    if (fault) {
      return fails(
        `Its length and last hash agree, but line ${fault.line}, which it covers, is not sound.${byStranger}`,
        fault.line,
      )
    }
    if (byStranger) return fails(`Its length and hash agree with the journal.${byStranger}`)
    const what = tour === null ? 'It is not signed; its length and hash agree with the journal.' : 'It holds.'
    return { ...check, holds: true, what, from: null }
  }
