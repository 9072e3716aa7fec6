// What the rack covers before anything breaks: a bar a kind that reads without colour, then what to buy and who would be without.
import { coverageOf, type Coverage, type KindCoverage } from '../../domain/coverage/coverage.ts'
import { policyOf } from '../../domain/policy/in-force.ts'
import { factsOf } from '../../domain/kinds.ts'
import { detailsOf } from '../../exports/coverage.ts'
import { wrap } from '../../exports/wrap.ts'
import { fit } from '../cells.ts'
import { plainLine, type Line } from '../theme.ts'
import type { Ui } from '../ui-state.ts'
import type { View } from '../view.ts'
import { bodyHeight, foot, head, rule, screen, type Size } from './frame.ts'

const KEYS = 'up, down, PgUp, PgDn move   Esc goes back'
const FILL = {
  unicode: { more: '█', one: '▒', none: '·' },
  ascii: { more: '#', one: '=', none: '.' },
}

let last: { state: object; minute: string; coverage: Coverage } | undefined

/** Kept while neither the books nor the minute change: it is asked for at every key. */
function coverageIn({ state, at }: View): Coverage {
  const minute = at.slice(0, 16)
  if (last?.state === state && last.minute === minute) return last.coverage
  const coverage = coverageOf(state, policyOf(state), at)
  last = { state, minute, coverage }
  return coverage
}

export function coverageScreen(view: View, ui: Ui, size: Size): Line[] {
  const { unicode } = view
  const { columns } = size
  const coverage = coverageIn(view)
  const fill = FILL[unicode ? 'unicode' : 'ascii']
  const legend = `${fill.more} two or more  ${fill.one} only one  ${fill.none} none`
  const plot = coverage.kinds.map((each) =>
    bar(each, each.kind === 'cylinder' ? coverage.toRead.length : 0, columns, unicode),
  )
  const top = [
    plainLine(rule(`Riding positions by spares that fit: ${legend}`, columns, unicode)),
    ...plot,
    ...wrap(coverage.words, columns - 2).map((text): Line => [{ text: ` ${text}`, bold: true }]),
  ]
  const lines = wrapped(coverage, columns)
  const room = bodyHeight(view, size) - top.length
  const start = Math.min(ui.top, lastTopOf(view, size))
  const shown = lines.slice(start, start + room).map((text) => plainLine(text))
  const left = lines.length - start - shown.length
  if (left > 0) shown[shown.length - 1] = plainLine(`   and ${left + 1} more lines below`)
  return screen(head(view, size), [...top, ...shown], foot(ui, size, KEYS, unicode), size)
}

const wrapped = (coverage: Coverage, columns: number): string[] =>
  detailsOf(coverage).flatMap((line) => {
    const indent = /^ */.exec(line)![0].length
    const [first = '', ...rest] = wrap(line.slice(indent), columns - indent - 5)
    return [`${' '.repeat(indent + 1)}${first}`, ...rest.map((each) => `${' '.repeat(indent + 3)}${each}`)]
  })

/** The first line of the last page of what stands beneath the bars. */
export function lastTopOf(view: View, size: Size): number {
  const coverage = coverageIn(view)
  const top = 1 + coverage.kinds.length + wrap(coverage.words, size.columns - 2).length
  return Math.max(0, wrapped(coverage, size.columns).length - (bodyHeight(view, size) - top))
}

const NAME = 20

/** One cell a riding position where there is room, else in proportion; what there is of anything is never drawn as nothing. */
function bar(
  { kind, none, one, more }: KindCoverage,
  unread: number,
  columns: number,
  unicode: boolean,
): Line {
  const fill = FILL[unicode ? 'unicode' : 'ascii']
  const counts = none > 0 ? `${none} with none` : one > 0 ? `${one} with only one` : 'two or more each'
  const read = unread ? `, ${unread} to be read` : ''
  const room = columns - NAME - 18 - read.length
  const all = none + one + more
  const cells = (count: number): number =>
    all <= room ? count : count === 0 ? 0 : Math.max(1, Math.round((count / all) * room))
  const drawn = fill.more.repeat(cells(more)) + fill.one.repeat(cells(one)) + fill.none.repeat(cells(none))
  const { word } = factsOf(kind)
  return [
    {
      text: ` ${fit(word, NAME, unicode)} ${fit(drawn.slice(0, room), Math.min(room, Math.max(all, 12)), unicode)}  `,
    },
    { text: `${counts}${read}`, tone: none ? 'bad' : undefined },
  ]
}
