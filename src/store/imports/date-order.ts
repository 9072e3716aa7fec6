// Settles for each date column whether its days or its months come first; it must never settle it from one cell alone where another disagrees.
import { figuresOf, readDate, type Order } from './dates.ts'
import { show, type Fault } from './fault.ts'
import type { AnyColumn, Columns } from './headings.ts'
import type { Row } from './table.ts'

const DATE_COLUMNS = ['made', 'in-service', 'issued-on', 'on'] as const satisfies readonly AnyColumn[]
type DateColumn = (typeof DATE_COLUMNS)[number]

/** A column whose order cannot be told is missing: its cells in figures are then left unread. */
interface DateOrders {
  orders: Map<AnyColumn, Order>
  faults: Fault[]
  notes: string[]
}

interface Evidence {
  name: DateColumn
  heading: string
  /** The first date in figures that reads either way, else the first in figures. */
  sample: string
  firstLine: number
  proof: Map<Order, { line: number; text: string }>
}

function evidenceOf(name: DateColumn, columns: Columns, rows: readonly Row[]): Evidence | undefined {
  const column = columns.get(name)
  if (!column) return undefined
  let either: string | undefined
  let first: { line: number; text: string } | undefined
  const proof: Evidence['proof'] = new Map()
  for (const { line, cells } of rows) {
    const text = cells[column.index]!
    const figures = figuresOf(text)
    if (!figures) continue
    first ??= { line, text }
    const [one, other] = figures
    if (one <= 12 && other <= 12) either ??= text
    const order = one > 12 && other <= 12 ? 'day-first' : one <= 12 && other > 12 ? 'month-first' : undefined
    if (order && !proof.has(order)) proof.set(order, { line, text })
  }
  if (!first) return undefined
  return { name, heading: column.heading, sample: either ?? first.text, firstLine: first.line, proof }
}

export function settleDateOrders(columns: Columns, rows: readonly Row[]): DateOrders {
  const found = DATE_COLUMNS.flatMap((name) => evidenceOf(name, columns, rows) ?? [])
  const settled: DateOrders = { orders: new Map(), faults: [], notes: [] }
  const proven = new Set(found.flatMap(({ proof }) => (proof.size === 1 ? [...proof.keys()] : [])))
  for (const evidence of found) settle(evidence, proven, settled)
  for (const name of DATE_COLUMNS) {
    // No date in figures stands in it, so its order is never asked for.
    if (!found.some((evidence) => evidence.name === name)) settled.orders.set(name, 'month-first')
  }
  return settled
}

/** @param proven the orders that the file's columns prove, each for itself */
function settle(evidence: Evidence, proven: Set<Order>, settled: DateOrders): void {
  const { name, heading, sample, firstLine, proof } = evidence
  const [day, month] = [proof.get('day-first'), proof.get('month-first')]
  if (day && month) {
    const [early, late] = day.line < month.line ? [day, month] : [month, day]
    const says =
      `${show(late.text)} and ${show(early.text)} on line ${early.line} cannot both be right: one has the day first, ` +
      'the other the month. Write the dates of this column as 2019-03-15.'
    settled.faults.push({ line: late.line, column: heading, says })
    return
  }
  if (!day && !month && proven.size === 2) {
    const says =
      'Other dates of this file have the day first and others the month. Write this column as 2019-03-15.'
    settled.faults.push({ line: firstLine, column: heading, says })
    return
  }
  const order = day ? 'day-first' : month || !proven.has('day-first') ? 'month-first' : 'day-first'
  const own = day ?? month
  const why = own
    ? `as ${show(own.text)} on line ${own.line} can only be`
    : proven.has('day-first')
      ? 'as the other dates of this file are'
      : 'for nothing in the file says otherwise'
  settled.orders.set(name, order)
  const reading = readDate(sample, order)
  const example = 'value' in reading ? ` ${show(sample)} is ${reading.value}.` : ''
  settled.notes.push(
    `Column ${show(heading)}: dates in figures were read ${order === 'day-first' ? 'day' : 'month'} first, ${why}.${example}`,
  )
}
