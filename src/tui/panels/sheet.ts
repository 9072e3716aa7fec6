// The questions of an action: a list to choose from, words to write, or a last look before it is recorded.
import type { LookLine, Option, Step } from '../actions/action.ts'
import { capital } from '../../domain/decide/decision.ts'
import { keepLast } from '../keep-last.ts'
import { actionBy } from '../keymap.ts'
import { widthOf, wrap } from '../../exports/wrap.ts'
import { clip, fit, tail, windowStart } from '../cells.ts'
import { plainLine, type Line } from '../theme.ts'
import { isProposed, type Ui } from '../ui-state.ts'
import { isOffered, keysOfOffer } from '../update/offer.ts'
import { narrowed } from '../update/narrowed.ts'
import { isRefused, stepOf } from '../update/sheet.ts'
import type { View } from '../view.ts'
import { foot, footWithKeys, head, rule, screen, type Size } from './frame.ts'
import { toldOf } from './told.ts'

const KEYS: Readonly<Record<Step['ask'], string>> = {
  choose: 'up, down move   letters narrow the list   Enter takes   Esc one step back',
  write: 'type   Enter takes   Ctrl-U empties   Esc one step back',
  confirm: 'Enter does it   Esc one step back',
  done: '',
}

const PROPOSED = 'Enter takes it   type another in its place   Esc one step back'
const NUMBERED = 'a digit, up or down chooses   Enter takes   Esc one step back'
const isNumbered = (step: Step): boolean => step.ask === 'choose' && step.isNumbered === true

export function sheetScreen(view: View, ui: Ui, size: Size): Line[] {
  const step = stepOf(view, ui)
  const { columns } = size
  const action = actionBy(ui.action!)
  const { row } = view
  const where = row && !action.isOfStation ? `: ${row.seat} ${row.position} ${row.name || 'nobody'}` : ''
  const title = rule(`${capital(action.label)}${where}`, columns, view.unicode)
  const top = head(view, size)
  const bottom = keysBelow(view, ui, step, size)
  const height = size.rows - 1 - top.length - bottom.length
  const body = step.ask === 'done' ? [] : bodyOf(step, ui, view, size, height - 1)
  return screen(top, [plainLine(title), ...body], bottom, size)
}

function keysBelow({ unicode }: View, ui: Ui, step: Step, size: Size): Line[] {
  // What was done is still said beside an offer, and what the keys do with it too.
  if (isOffered(ui)) return footWithKeys(ui, size, keysOfOffer(ui, step), unicode)
  if (step.ask === 'write' && isProposed(ui)) return foot(ui, size, PROPOSED, unicode)
  const keys = isRefused(step) ? 'Esc one step back' : isNumbered(step) ? NUMBERED : KEYS[step.ask]
  return foot(ui, size, keys, unicode)
}

function bodyOf(
  step: Exclude<Step, { ask: 'done' }>,
  ui: Ui,
  view: View,
  size: Size,
  height: number,
): Line[] {
  const width = size.columns
  const question = wrap(step.title, width - 2).map((text): Line => [{ text: ` ${text}`, bold: true }])
  switch (step.ask) {
    case 'choose': {
      const told = step.lines?.length ? [...toldOf(step, view, size, ui.top).shown, []] : []
      const left = height - question.length - told.length
      return [...told, ...question, ...options(step, ui, view, width, left)]
    }
    case 'write':
      return [
        ...question,
        ...(step.hint ? wrap(`(${step.hint})`, width - 2).map((text) => plainLine(` ${text}`)) : []),
        [],
        // The end of what is typed stays in sight: that is where the next letter goes.
        [
          { text: ' > ' },
          {
            text: tail(step.isSecret ? '*'.repeat([...ui.text].length) : ui.text, width - 6),
            inverse: isProposed(ui),
          },
          { text: ' ', inverse: true },
        ],
      ]
    case 'confirm':
      return [...question, [], ...look(step.lines, width, height - question.length - 1)]
  }
}

/** The last look; where there is not room for all, items are left out and counted, never what the act does. */
function look(lines: readonly LookLine[], width: number, height: number): Line[] {
  const drawn = lines.map(({ text, tone, isItem }) => ({
    isItem,
    parts: wrap(text, width - 4).map((part) => plainLine(`   ${part}`, tone)),
  }))
  const items = drawn.filter((each) => each.isItem)
  const isAllShown = (kept: number): boolean => kept === items.length
  const tall = (kept: number): number =>
    drawn
      .filter((each) => !each.isItem || items.indexOf(each) < kept)
      .reduce((sum, each) => sum + each.parts.length, isAllShown(kept) ? 0 : 1)
  let kept = items.length
  while (kept > 0 && tall(kept) > height) kept -= 1
  const left = items.length - kept
  const shown = drawn.flatMap((each): Line[] => {
    const at = items.indexOf(each)
    if (at < kept) return each.parts
    return at === kept ? [plainLine(`   and ${left} more; a larger window shows more of them`)] : []
  })
  if (shown.length <= height) return shown
  return [...shown.slice(0, height - 1), plainLine('   and more; a larger window shows it', 'warn')]
}

/** So many speak for a whole department's list. */
const MEASURED = 1_000
const keptWidths = keepLast<ReturnType<typeof widthsOf>>()

function widthsOf(shown: readonly Option[]): { notes: number; labels: number } {
  const longest = (words: string[]): number => Math.max(0, ...words.map(widthOf))
  const measured = shown.slice(0, MEASURED)
  const notes = longest(measured.map((each) => each.blocked ?? each.note ?? ''))
  // A label without a note has the whole line.
  const noted = measured.filter((each) => each.blocked ?? each.note)
  return { notes, labels: longest(noted.map((each) => each.label)) }
}

function options(
  step: Extract<Step, { ask: 'choose' }>,
  ui: Ui,
  view: View,
  width: number,
  height: number,
): Line[] {
  const shown = narrowed(step, ui.text)
  const typed: Line[] = ui.text
    ? [
        plainLine(
          ` Narrowed by "${clip(ui.text, width - 40, view.unicode)}": ${shown.length} of ${step.options.length}`,
        ),
      ]
    : []
  if (ui.text && !shown.length)
    typed.push(plainLine(' Nothing here has that. Backspace or Esc takes the letters away.'))
  const room = height - typed.length
  const isLong = shown.length > room
  const rows = isLong ? room - 1 : room
  const start = windowStart(ui.cursor, shown.length, rows)
  const { notes, labels } = keptWidths([shown], () => widthsOf(shown))
  const most = Math.max(34, width - 3 - notes)
  const widest = Math.min(most, Math.max(12, labels + 2))
  const lines = shown.slice(start, start + rows).map((option, index): Line => {
    const isInHand = start + index === ui.cursor
    const each = step.isNumbered ? { ...option, label: `${start + index + 1} ${option.label}` } : option
    const note = each.blocked ?? each.note ?? ''
    if (!note) {
      const label = clip(each.label, width - 3, view.unicode)
      return [
        { text: isInHand ? ' > ' : '   ', bold: true },
        { text: label, bold: isInHand, tone: each.tone },
      ]
    }
    return [
      { text: isInHand ? ' > ' : '   ', bold: true },
      { text: `${fit(each.label, widest - 2, view.unicode)}  `, bold: isInHand, tone: each.tone },
      { text: clip(note, width - widest - 3, view.unicode) },
    ]
  })
  const more: Line[] = isLong
    ? [
        plainLine(
          `   ${start + rows < shown.length ? `${shown.length - start - rows} more below` : 'end of the list'}`,
        ),
      ]
    : []
  // The one in hand is shown whole where the list leaves room for it.
  const inHand = shown[ui.cursor]
  const note = inHand?.blocked ?? inHand?.note ?? ''
  const isCut = note !== '' && (widthOf(inHand!.label) > widest - 2 || widthOf(note) > width - widest - 3)
  const whole = isCut ? wrap(`${inHand!.label} (${note})`, width - 6) : []
  const spare = height - typed.length - lines.length - more.length - 1
  const detail: Line[] =
    whole.length && spare >= whole.length
      ? [[], ...whole.map((text) => plainLine(`     ${text}`, inHand!.tone))]
      : []
  return [...typed, ...lines, ...more, ...detail]
}
