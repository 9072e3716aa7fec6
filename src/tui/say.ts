// What several screens say in the same words; it must never measure a screen.
import type { PlaceLine, ReasonLine } from '../domain/board.ts'
import { SIGNS } from '../domain/signs.ts'

const MOST_NAMES = 6

/** `A. Varga, B. Okoro and 5 more` */
export const sayNames = (names: readonly string[], most = MOST_NAMES): string =>
  names.length > most
    ? `${names.slice(0, most).join(', ')} and ${names.length - most} more`
    : names.join(', ')

/** `out of service: Hood K-9071: tagged, hole (safety)`; the state is left away where the reason begins with it. */
export function sayReason({ state, text, matter, looser }: ReasonLine): string {
  const { word } = SIGNS[state]
  const by = looser ? ', by a looser rule' : ''
  const isSaid = text.split(': ')[1]?.startsWith(word) ?? false
  return `${isSaid ? '' : `${word}: `}${text} (${matter}${by})`
}

/** `missing, it is away at North Wash`; `unproven: its pressure has not been read`. The state is never said twice. */
export function sayPlace({ state, text }: Pick<PlaceLine, 'state' | 'text'>): string {
  const { word } = SIGNS[state]
  if (!text) return word
  return text.startsWith(word) ? text : `${word}: ${text}`
}
