// CSV against csv-spectrum 2.0.0, a set of cases that many parsers share; every value as the set gives it.
import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { expect, test } from 'vitest'
import { readTable } from '../../src/store/imports/table.ts'

const place = dirname(createRequire(import.meta.url).resolve('csv-spectrum/package.json'))
const names = readdirSync(join(place, 'csvs')).map((name) => name.replace(/\.csv$/, ''))
// The set's own readme calls this one faulty: a bare quote inside a cell, and bytes that are no UTF-8.
const FAULTY = 'location_coordinates'

test('the set is the one with twelve cases', () => expect(names).toHaveLength(12))

test.each(names.filter((name) => name !== FAULTY))('%s', (name) => {
  const { head, rows, faults } = readTable(readFileSync(join(place, 'csvs', `${name}.csv`)))
  const keys = head!.cells
  const read = rows.map(({ cells }) => Object.fromEntries(keys.map((key, index) => [key, cells[index]])))
  expect({ faults, read }).toEqual({
    faults: [],
    read: JSON.parse(readFileSync(join(place, 'json', `${name}.json`), 'utf8')) as unknown,
  })
})

test('the faulty one is refused with its line and column, and nothing of it is read', () => {
  const { rows, faults } = readTable(readFileSync(join(place, 'csvs', `${FAULTY}.csv`)))
  expect(rows).toEqual([])
  expect(faults).toMatchObject([{ line: 2, column: 'Location Coordinates' }])
})
