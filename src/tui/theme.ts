// How tones look on the glass; meaning must never hang on a colour.
import type { Tone } from '../domain/signs.ts'

/**
 * Each reads at 4.5:1 or better on black and on white, so their luminance is nearly one; red and blue stay apart in the
 * commonest forms of colour blindness, where reds and greens do not.
 */
export const COLOURS: Readonly<Record<Tone, string | undefined>> = {
  bad: '#e22b12',
  warn: '#166ef3',
  good: undefined,
  quiet: undefined,
}

/** One piece of a line. */
export interface Span {
  text: string
  tone?: Tone | undefined
  bold?: boolean | undefined
  inverse?: boolean | undefined
}
/** One line of the glass, at most as wide as the panel. */
export type Line = Span[]

export const plainLine = (text: string, tone?: Tone): Line => [{ text, tone }]
