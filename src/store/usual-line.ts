// Reads the line that nearly every line is: plain letters, next in the chain, sound in every way. It must never take one that `checkLine` would refuse.
import { END_PART, PREV_MEMBER, HASH_MEMBER, HASH_PART, SEQ_MEMBER, sha256, type Entry } from './line.ts'

const MEMBERS = ['seq', 'at', 'by', 'type', 'data']

/**
 * The entry of the line after `seq` and `prev`; undefined says nothing of the line, which is then to be checked byte by
 * byte. Each letter of `text` is one byte. What stands at the fixed places is compared and not parsed: it cannot end
 * a string or a list that was opened before it, so the members before it are whole by themselves or not at all.
 */
export const usualEntry = (text: string, seq: number, prev: string): Entry | undefined => {
  if (!text.startsWith(`${SEQ_MEMBER}${seq},`)) return undefined
  const own = sha256(text.slice(0, -HASH_PART))
  if (!text.endsWith(`${PREV_MEMBER}${prev}"${HASH_MEMBER}${own}"}`)) return undefined
  const value = jsonOrNothing(`${text.slice(0, -END_PART)}}`)
  if (value === undefined) return undefined
  let members = 0
  for (const name in value) if (name !== MEMBERS[members++]) return undefined
  const { at, by, type, data } = value
  const isEntry =
    members === MEMBERS.length &&
    value.seq === seq &&
    typeof at === 'string' &&
    typeof by === 'string' &&
    typeof type === 'string' &&
    typeof data === 'object' &&
    data !== null &&
    !Array.isArray(data)
  return isEntry ? { seq, at, by, type, data, prev, hash: own } : undefined
}

/** Begins like an object, so that it is one if it is anything. */
const jsonOrNothing = (text: string): Partial<Record<keyof Entry, unknown>> | undefined => {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}
