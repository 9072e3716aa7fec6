// What the board can be told from the keyboard: tokens, and the tables that name keys; it must never hold state.

export type Key =
  | 'up'
  | 'down'
  | 'left'
  | 'right'
  | 'enter'
  | 'escape'
  | 'tab'
  | 'back-tab'
  | 'backspace'
  | 'delete'
  | 'insert'
  | 'page-up'
  | 'page-down'
  | 'home'
  | 'end'
  | `f${number}`
  | `ctrl-${string}`

export type Token =
  | { key: Key }
  | { char: string }
  | { scan: string; again?: true; tooLong?: true }
  | { paste: string; tooLong?: true }

const LETTERS: Readonly<Record<string, Key>> = {
  A: 'up',
  B: 'down',
  C: 'right',
  D: 'left',
  F: 'end',
  H: 'home',
  M: 'enter',
  P: 'f1',
  Q: 'f2',
  R: 'f3',
  S: 'f4',
  Z: 'back-tab',
}

const NUMBERS: Readonly<Record<string, Key>> = {
  1: 'home',
  2: 'insert',
  3: 'delete',
  4: 'end',
  5: 'page-up',
  6: 'page-down',
  7: 'home',
  8: 'end',
  11: 'f1',
  12: 'f2',
  13: 'f3',
  14: 'f4',
  15: 'f5',
  17: 'f6',
  18: 'f7',
  19: 'f8',
  20: 'f9',
  21: 'f10',
  23: 'f11',
  24: 'f12',
}

/** The key that a control character stands for; undefined for the ones that no key of the board sends. */
export function controlKey(char: string): Key | undefined {
  const code = char.codePointAt(0) ?? 0
  if (char === '\r' || char === '\n') return 'enter'
  if (char === '\t') return 'tab'
  if (code === 0x7f || code === 0x08) return 'backspace'
  return code >= 0x01 && code <= 0x1a ? `ctrl-${String.fromCodePoint(code + 0x60)}` : undefined
}

/** The key that a whole CSI or SS3 sequence stands for. Shift, Alt and Ctrl held with it make no difference. */
export function sequenceKey(sequence: string): Key | undefined {
  const csi = /^\x1b\[([\d;]*)([A-Z~])$/.exec(sequence)
  if (csi?.[2] === '~') return NUMBERS[csi[1]?.split(';')[0] ?? '']
  // Arrows and the like carry nothing, or 1 and what was held with them. Other numbers belong to reports.
  if (csi && !/^(1(;\d+)?)?$/.test(csi[1] ?? '')) return undefined
  const letter = csi ?? /^\x1bO([\d;]*)([A-Z])$/.exec(sequence)
  // CSI M opens a mouse report; only its SS3 form is the keypad's Enter.
  return letter && !(csi && letter[2] === 'M') ? LETTERS[letter[2] ?? ''] : undefined
}
