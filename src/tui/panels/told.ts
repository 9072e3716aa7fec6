// What has to be read before a question is answered: as much as there is room for, and how far one has read.
import type { Step } from '../actions/action.ts'
import { wrap } from '../../exports/wrap.ts'
import { plainLine, type Line } from '../theme.ts'
import type { View } from '../view.ts'
import { bodyHeight, type Size } from './frame.ts'

type Choose = Extract<Step, { ask: 'choose' }>

interface Told {
  shown: Line[]
  /** The first line shown, the first line of the last page, and how far a page goes on. */
  top: number
  last: number
  page: number
}

/** Of a short list every option stays in sight beneath what is told, of a long one some. */
const leastFor = (step: Choose): number => Math.min(step.options.length, 6) + 2

export function toldOf(step: Choose, view: View, size: Size, from: number): Told {
  const { columns } = size
  const parts = (step.lines ?? []).flatMap(({ text, tone }) =>
    wrap(text, columns - 6).map((part, at) => plainLine(` ${at === 0 ? ' ' : '   '} ${part}`, tone)),
  )
  const question = wrap(step.title, columns - 2).length
  const room = Math.max(2, bodyHeight(view, size) - 1 - question - leastFor(step))
  if (parts.length <= room) return { shown: parts, top: 0, last: 0, page: room }
  const page = room - 1
  const last = parts.length - page
  const top = Math.min(from, last)
  const end = top + page
  const more = end < parts.length ? 'PgDn reads on' : 'the end; PgUp goes back'
  const where = plainLine(`   lines ${top + 1} to ${end} of ${parts.length}: ${more}`, 'warn')
  return { shown: [...parts.slice(top, end), where], top, last, page }
}
