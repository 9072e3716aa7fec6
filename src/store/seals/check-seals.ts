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

export type CheckOptions = VerifyOptions & {
  /** Seals kept elsewhere. */
  against?: Omit<SealFile, 'path'>[]
  /** A public key known from elsewhere; without one the keys are those the journal brings. */
  key?: string
}

type Asked = Omit<SealFile, 'path'> & { claim: Claim | undefined }

const asked = ({ name, text }: Omit<SealFile, 'path'>): Asked => ({
  name,
  text,
  claim: parseClaim(parseNote(text)?.text ?? ''),
})

/** One pass over the journal, however many seals. */
export const checkJournal = (
  folder: string,
  options: CheckOptions = {},
): Exclude<Verification, Verified> | Checked => {
  const { against = [], key, ...verifyOptions } = options
  const [own, kept] = [sealsIn(folder, options.files).map(asked), against.map(asked)]
  const wanted = new Set([...own, ...kept].map(({ claim }) => claim?.count))
  const hashes = new Map<number, string>()
  const lines = sealLines()
  const notice = (line: number, text: string, frame: Frame | undefined): void => {
    if (wanted.has(line) && frame !== undefined) hashes.set(line, frame.own)
    lines.notice(line, text, frame)
  }
  const verified = verifyJournal(folder, { ...verifyOptions, notice })
  if (verified.kind !== 'verified') return verified
  const judge = judgeOf(verified, lines.found, hashes, key)
  const first = [...own, ...kept].map((each) => judge(each, 0))
  const agreed = first.flatMap((each) => (each.holds && each.lines !== null ? [each.lines] : []))
  const judged = (each: Asked): SealCheck =>
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
  ({ name, text, claim }: Asked, agreed: number): SealCheck => {
    const opened = openNote(text, trustedKeys(keys, known))
    const check = { seal: name, tour: claim?.tour ?? null, lines: claim?.count ?? null }
    const fails = (what: string, from: number | null = null): SealCheck => ({
      ...check,
      holds: false,
      what,
      from,
    })
    if (opened.kind === 'no-note') return fails('It is not a signed note: it was cut, altered or never one.')
    if (opened.kind === 'altered')
      return fails('It was altered after it was signed: the signature is not of this text.')
    if (claim === undefined) return fails('It is a signed note, and no seal of a journal.')
    const { origin, count, head } = claim
    const own = originOf(stationName, firstHash)
    if (firstHash !== '' && !isSameStation(origin, own)) {
      return fails(
        `It is a seal of another station or of another first line: ${origin}, and this is ${own}.`,
        1,
      )
    }
    const stranger = known === undefined ? 'that this journal does not know' : 'other than the one given'
    const byStranger = opened.kind === 'unknown-key' ? ` It is signed by a key ${stranger}.` : ''
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
    return { ...check, holds: true, what: 'It holds.', from: null }
  }
