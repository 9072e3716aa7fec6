// The symbol, word and tone of every state: meaning is symbol, word and place together, colour is extra.
import type { Condition } from './policy/shape.ts'

export type Shown = Condition | 'unfilled'
/** How loud a line is: `bad` may not ride, `warn` needs a decision soon, `good` and `quiet` need none. */
export type Tone = 'bad' | 'warn' | 'good' | 'quiet'

interface Sign {
  symbol: string
  /** For terminals and papers that hold ASCII only. */
  ascii: string
  word: string
  tone: Tone
}

export const SIGNS: Readonly<Record<Shown, Sign>> = {
  'out-of-service': { symbol: '■', ascii: '#', word: 'out of service', tone: 'bad' },
  missing: { symbol: '□', ascii: 'O', word: 'missing', tone: 'bad' },
  expired: { symbol: '▼', ascii: 'X', word: 'expired', tone: 'bad' },
  unproven: { symbol: '?', ascii: '?', word: 'unproven', tone: 'bad' },
  due: { symbol: '△', ascii: '!', word: 'due', tone: 'warn' },
  ready: { symbol: '·', ascii: '.', word: 'ready', tone: 'good' },
  unfilled: { symbol: '–', ascii: '-', word: 'unfilled', tone: 'quiet' },
}

/** The worst first. */
export const rankOf = (shown: Shown): number => Object.keys(SIGNS).indexOf(shown)

export const symbolOf = (shown: Shown, unicode: boolean): string => SIGNS[shown][unicode ? 'symbol' : 'ascii']

/** Said on the help screen, in the README and on every printed log. */
export const CAUTIONS: readonly string[] = [
  'Bayboard records and flags. It does not certify gear.',
  "The maker's instructions, the authority having jurisdiction, the edition in force and trained inspectors decide.",
  'A routine check cannot show hidden damage.',
  'Never mix shells and liners that are not one assembly. Never ride a shell without its liner.',
  'Wet or contaminated gear is not ready.',
  "A facepiece of another size or model is outside the wearer's fit test.",
  'Gear of an injured or fallen member is held as evidence.',
]

export const INVENTED = 'DEMONSTRATION: every person, place and piece of gear here is invented.'
