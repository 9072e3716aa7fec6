// Reads a history of care or a list of fit tests, one record a row; it must never fill in a result or a day that a row does not give.
import { plainText } from '../../exports/csv-text.ts'
import type { DoneCare, DoneFitTest } from '../../domain/events.ts'
import { idShape } from '../../domain/gear.ts'
import { readCode } from './cells.ts'
import { readCare, readPassed } from './care-words.ts'
import { readDate } from './dates.ts'
import { show } from './fault.ts'
import type { RecordColumn } from './record-columns.ts'
import { cellOf, optionalCell, type Reading } from './reading.ts'
import type { Row } from './table.ts'

/** A reader that tells its fault and gives nothing. */
type Take = <T>(column: RecordColumn, told: { value: T } | { says: string }) => T | undefined

const takerFor =
  (row: Row, reading: Reading): Take =>
  (column, told) => {
    if ('value' in told) return told.value
    reading.fault(row.line, column, told.says)
    return undefined
  }

function readId(row: Row, column: 'element' | 'member', reading: Reading, take: Take): string | undefined {
  const cell = cellOf(row, column, reading.columns)
  if (cell === '') return take(column, { says: `The row has no ${column}.` })
  const id = take(column, readCode(cell))
  if (id === undefined) return undefined
  return idShape.safeParse(id).success
    ? id
    : take(column, { says: `${show(id)} must be 1 to 40 letters, digits, "-", "_" or ".".` })
}

function readDay(row: Row, reading: Reading, take: Take): string | undefined {
  const cell = cellOf(row, 'on', reading.columns)
  const order = reading.orders.get('on')
  if (cell === '') return take('on', { says: 'The row has no date. Write it as 2019-03-15.' })
  return order && take('on', readDate(cell, order))
}

export function readCareRow(row: Row, reading: Reading): DoneCare | undefined {
  const take = takerFor(row, reading)
  const element = readId(row, 'element', reading, take)
  const care = take('care', readCare(cellOf(row, 'care', reading.columns)))
  const on = readDay(row, reading, take)
  const passed = take('result', readPassed(cellOf(row, 'result', reading.columns)))
  const who = plainText(optionalCell(row, 'who', reading))
  const note = plainText(optionalCell(row, 'note', reading))
  if (element === undefined || care === undefined || on === undefined || passed === undefined)
    return undefined
  return {
    element,
    care,
    on,
    result: passed ? 'serviceable' : 'unserviceable',
    ...(who && { who }),
    ...(note && { note }),
  }
}

export function readFitTestRow(row: Row, reading: Reading): DoneFitTest | undefined {
  const take = takerFor(row, reading)
  const member = readId(row, 'member', reading, take)
  const wordsIn = (column: RecordColumn): string | undefined =>
    plainText(cellOf(row, column, reading.columns)) ||
    take<string>(column, { says: `The row has no ${column}.` })
  const [model, size] = [wordsIn('facepiece-model'), wordsIn('facepiece-size')]
  const on = readDay(row, reading, take)
  const passed = take('result', readPassed(cellOf(row, 'result', reading.columns)))
  if (!member || !model || !size || on === undefined || passed === undefined) return undefined
  return { member, facepiece: { model, size }, on, result: passed ? 'pass' : 'fail' }
}
