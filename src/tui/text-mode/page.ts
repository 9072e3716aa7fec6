// A page as it is drawn, told as sentences; it must never hold what a sign or a place alone would say.
import { SIGNS } from '../../domain/signs.ts'
import { linesFor } from '../screens.ts'
import { foot, head, type Size } from '../panels/frame.ts'
import type { Ui } from '../ui-state.ts'
import type { View } from '../view.ts'

/** Tall enough for any card, and for a plot that is still read at once; wide enough that nothing read is broken. */
const sizeFor = (ui: Ui): Size =>
  ui.screen === 'card' || ui.screen === 'help' ? { columns: 4_000, rows: 4_000 } : { columns: 100, rows: 60 }

/** A sign stands before its word: the word is what is said. */
const SIGN = new RegExp(
  ` [${Object.values(SIGNS)
    .map((each) => `\\${each.ascii}`)
    .join('')}] (?=${Object.values(SIGNS)
    .map((each) => each.word)
    .join('|')})`,
  'g',
)

/** The bar of a plot, and its sign in the legend: the words beside it say the same. */
const BAR = /(?<=^|\s)[#=.]+(?:\s|$)/g

/** Without what stands around it: rules lose their dashes, columns become one sentence, gaps close. */
export function pageOf(view: View, ui: Ui): string[] {
  const size = sizeFor(ui)
  const quiet = { ...ui, message: null, top: 0 }
  const above = head(view, size).length
  const below = foot(quiet, size, '', view.unicode).length
  const lines = linesFor({ ...view, size }, quiet, size).slice(above, -below)
  return lines
    .map((line) =>
      line
        .map((span) => span.text)
        .join('')
        .trim()
        .replace(/^-+ (.*?) -+$/, '$1')
        .replace(/^(\S.{0,12}?) {2,}(?=\S)/, '$1: ')
        .replaceAll(/ {2,}/g, ' ')
        .replaceAll(SIGN, ' ')
        .replaceAll(BAR, ''),
    )
    .filter((line, at, all) => line !== '' || (all[at + 1] ?? '') !== '')
}
