// What a screen is told as: lines, numbered choices and what can be typed. It must never know a screen.

export interface Choice {
  /** A riding position, an option or an event: what the number stands for, also when the list has changed since. */
  value: string
  label: string
  /** A line of its own before it. */
  under?: string
}
export interface Spoken {
  lines: string[]
  choices: Choice[]
  /** What can be typed now. */
  hint: string
  /** It is told whole: what is confirmed has to be heard first. */
  isWhole?: boolean
  /** Nobody listens to hundreds of choices: they are counted, and read out when they are asked for. */
  isLong?: boolean
}

export const BACK = 'b goes one step back.'
export const ON_BOARD =
  'This is the board: b goes back no further. swap back puts own gear back in; quit leaves.'
export const NO_QUITTING = `quit leaves the board. ${BACK}`

/** What is said of keys, as it is typed here. */
export const inLines = (text: string): string =>
  text
    .replace('Enter again records it', 'say the same reading again to record it')
    .replace('type its pressure in psi, then Enter.', 'type it as psi 4400.')
    .replace('Enter answers:', 'ok answers:')
    .replace('Digits are the pressure.', 'psi 4400 is its pressure.')
    .replace('Enter records it', 'the same reading said again records it')
    // Here b only ever goes back: what that key does on the glass is asked for by its words.
    .replaceAll(/\bb (on that row |there )?swaps (it |one )?back/g, swapBack)
    .replace(/^b: (?=Give)/, 'swap back: ')
    .replaceAll(/\bEsc\b/g, 'b')

const swapBack = (_: string, where = '', what = 'it '): string => `swap back ${where}puts ${what}back`

/** In place of the keys that move along a screen. */
export const TYPED_HERE: readonly string[] = [
  'What is typed here, each followed by Enter',
  'a number: takes what was read out under it',
  'Enter alone: reads all again; more: reads on',
  'b: one step back, always',
  'yes: does what was read out last; nothing else does',
  'ok, psi 4400, next, previous: at roll call',
  'keep: takes the text that is proposed; none: leaves it empty',
  'an id, a serial, a name or a scan: shows its card, or narrows a list; never a command or an answer',
  '/12: looks for 12, or takes as your own words what would be a word from here',
  'help: this; quit: leaves the board',
  '',
]
