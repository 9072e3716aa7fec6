// A station set up from a department's own files: an empty one, a rig, two spreadsheets, the care of every element.
import { expect, test } from 'vitest'
import { bayboard, fileWith, journalOf, lines } from '../cli/run.ts'
import { emptyStation } from '../cli/two-seats.ts'
import { allOf } from './at-the-board.ts'
import { CARE_JSONL, GEAR_CSV, MEMBERS_CSV, RIG, stationFromFiles } from './csv-house.ts'

test('the rig is recorded before anybody is known; a dry run records nothing, an import each file as one event', () => {
  const station = emptyStation()
  const { stdout } = bayboard(['record'], { station, input: `${JSON.stringify(RIG)}\n` })
  expect(JSON.parse(stdout)).toEqual({ accepted: [2] })
  for (const text of [MEMBERS_CSV, GEAR_CSV]) {
    const file = fileWith(text, 'from-the-department.csv')
    const before = journalOf(station)
    expect(bayboard(['import', file, '--dry-run'], { station }).status).toBe(0)
    expect(journalOf(station)).toBe(before)
    expect(bayboard(['import', file], { station }).status).toBe(0)
  }
  const imports = allOf(station, 'gear-imported').map(({ data }) => [
    data.members.length,
    data.elements.length,
  ])
  expect(imports).toEqual([
    [3, 0],
    [0, 28],
  ])
  const { status, stdout: answers } = bayboard(['record'], { station, input: CARE_JSONL })
  expect(status).toBe(0)
  expect(lines(answers).filter((line) => !line.includes('accepted'))).toEqual([])
})

test('of a file with one bad row nothing is recorded, and the row is named by its line and column', () => {
  const station = emptyStation()
  const before = journalOf(station)
  const file = fileWith(GEAR_CSV.replace('Bottle', 'Flask'), 'gear.csv')
  const { status, stderr } = bayboard(['import', file], { station })
  expect(status).toBe(1)
  expect(stderr).toMatch(/^Line 13, column "Type": "Flask"/m)
  expect(journalOf(station)).toBe(before)
})

test('what was imported is on the rack or issued as the file says, and nobody rides only because nobody is seated', () => {
  const station = stationFromFiles()
  const { status, stdout } = bayboard(['status'], { station })
  expect(stdout).toContain('Engine 6')
  expect(status).toBe(1)
  expect(bayboard(['history', 'L-1'], { station }).stdout).toMatch(/Ada Varga/)
  expect(bayboard(['history', 'L-8'], { station }).stdout).toMatch(/rack/i)
})
