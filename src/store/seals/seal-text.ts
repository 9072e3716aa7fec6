// What a seal says, as the text of a signed note; it must never be taken for more than a claim before its signature is checked.

/**
 * The first three lines are laid out as those of a tlog-checkpoint (origin, length, head) and the format is our own: the
 * head is the hash of a line of a chain in hex, not the root of a tree in base64.
 */
export type Claim = {
  /** Which station: `bayboard/<its name>-<the start of its first line's hash>`. Also the name of its keys. */
  origin: string
  /** How many lines the journal had. */
  count: number
  /** The hash of the last of them. */
  head: string
  tour: string
  /** The instant of sealing. */
  at: string
}

const ORIGIN = /^bayboard\/[a-z0-9-]*-[0-9a-f]{16}$/
const MOST_OF_A_NAME = 24

export const originOf = (stationName: string, firstHash: string): string => {
  const words = stationName.toLowerCase().match(/[a-z0-9]+/g) ?? []
  const name = words.join('-').slice(0, MOST_OF_A_NAME).replace(/-$/, '')
  return `bayboard/${name || 'station'}-${firstHash.slice(0, 16)}`
}

/** Two origins are one station's when their hashes agree: its name is for people. */
export const isSameStation = (one: string, other: string): boolean => one.slice(-16) === other.slice(-16)

export const claimText = ({ origin, count, head, tour, at }: Claim): string =>
  `${origin}\n${count}\n${head}\ntour ${tour}\nsealed ${at}\n`

/** Undefined for a text that is no seal's. Lines that a later version adds are left alone. */
export const parseClaim = (text: string): Claim | undefined => {
  const [origin = '', count = '', head = '', tour = '', at = ''] = text.split('\n')
  const isClaim =
    ORIGIN.test(origin) &&
    /^[1-9][0-9]{0,14}$/.test(count) &&
    /^[0-9a-f]{64}$/.test(head) &&
    tour.startsWith('tour ') &&
    at.startsWith('sealed ')
  if (!isClaim) return undefined
  return { origin, count: Number(count), head, tour: tour.slice(5), at: at.slice(7) }
}

const SIGNATURE_LENGTH = Math.ceil(68 / 3) * 4

/** The seal inside a longer text, as an exported log or what somebody typed from paper: indented, wrapped, CRLF. */
export const sealIn = (text: string): string | undefined => {
  const lines = text.split(/\r?\n/).map((line) => line.trim())
  const start = lines.findIndex((line) => ORIGIN.test(line))
  const dash = lines.findIndex((line, at) => at > start && line.startsWith('— '))
  if (start === -1 || dash === -1) return undefined
  const signed = lines.slice(start, dash).filter((line) => line !== '')
  const [, name = '', ...pieces] = [...lines[dash]!.split(' '), ...lines.slice(dash + 1)]
  let signature = ''
  for (const piece of pieces) {
    if (signature.length >= SIGNATURE_LENGTH || !/^[A-Za-z0-9+/=]+$/.test(piece)) break
    signature += piece
  }
  return `${signed.join('\n')}\n\n— ${name} ${signature}\n`
}
