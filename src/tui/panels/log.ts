// The log, newest first: which records are shown, what became of each, and the one in hand whole with every version of it.
import { count } from '../../domain/count.ts'
import { LOG_ACTIONS } from '../keymap.ts'
import { wrap } from '../../exports/wrap.ts'
import { clip, windowStart } from '../cells.ts'
import { plainLine, type Line } from '../theme.ts'
import { logIndex, type LogEntry, type Ui } from '../ui-state.ts'
import type { View } from '../view.ts'
import { bodyHeight, foot, head, rule, screen, type Size } from './frame.ts'

/** Lines for the record in hand; a tall window has room for every version of it. */
const detailHeight = ({ rows }: Size): number => (rows >= 30 ? 8 : 5)

/** Keys by their word alone; Enter is named where there is room. */
function keysFor({ columns }: Size): string {
  const words = LOG_ACTIONS.map(({ key, label }) => `${key} ${label.split(' ').at(-1)}`)
  return [...(columns >= 100 ? ['Enter whole'] : []), ...words, 'Esc back'].join('  ')
}

/** What became of a record stands before it, where it is not cut off. */
const sayEntry = ({ became, text }: LogEntry): string => (became ? `(${became}) ${text}` : text)

const WHAT = { tour: 'tour', seat: 'riding position', element: 'element', member: 'member' } as const

function titleOf({ log, filter }: Ui, { state }: View): string {
  return filter
    ? `The log of ${WHAT[filter.by]} ${filter.id} only, newest first: ${log.length}. Esc shows all`
    : `The log, newest first: ${log.length} of ${count(state.seq, 'event')}`
}

/** As first recorded and as amended, or simply what it says. */
function detail(entry: LogEntry | undefined, width: number, height: number): Line[] {
  if (!entry) return [plainLine('  Nothing of this is in the log.')]
  const parts = entry.versions.length ? entry.versions : [entry.text]
  const lines = parts.flatMap((each) => wrap(each, width - 4))
  const shown = lines.length > height ? [...lines.slice(0, height - 1), 'and more: Enter shows all'] : lines
  return shown.map((text) => plainLine(`  ${text}`))
}

export function logScreen(view: View, ui: Ui, size: Size): Line[] {
  const { unicode } = view
  const height = detailHeight(size)
  const rows = bodyHeight(view, size) - height - 2
  const at = logIndex(ui)
  const start = windowStart(at, ui.log.length, rows)
  const list = ui.log.slice(start, start + rows).map((entry, index): Line => {
    const isInHand = start + index === at
    return [
      { text: isInHand ? '> ' : '  ', bold: true },
      {
        text: clip(sayEntry(entry), size.columns - 2, unicode),
        bold: isInHand,
        tone: entry.isCorrection ? 'warn' : undefined,
      },
    ]
  })
  // The space stays, so that the list never jumps.
  const gap = Array.from({ length: Math.max(0, rows - list.length) }, (): Line => [])
  const body = [
    plainLine(rule(titleOf(ui, view), size.columns, unicode)),
    ...list,
    ...gap,
    plainLine(rule('in hand', size.columns, unicode)),
    ...detail(ui.log[at], size.columns, height),
  ]
  return screen(head(view, size), body, foot(ui, size, keysFor(size), unicode), size)
}
