// `bayboard history`: all that happened to one thing in the station, in the order of the journal.
import { beforeAll, describe, expect, test } from 'vitest'
import { bayboard, journalOf, lines, newPlace } from './run.ts'
import { answers, fitStation, TOUR } from './two-seats.ts'

let station = ''
beforeAll(() => {
  station = fitStation(answers('E6-2', [{ element: 'B-2', point: 'sole separation', matter: 'safety' }]))
})

test.each([
  ['an element', 'B-2', ['serial S-B-2', 'sole separation', 'Advanced cleaning']],
  ['a member', 'M-105', ['Bo Okoro', 'Platoon']],
  ['a riding position', 'E6-2', ['Driver', 'sole separation']],
  ['a rig', 'E6', ['Engine 6', 'crew of 2']],
  ['a tour', TOUR, [TOUR]],
])('of %s, %s', (_, id, words) => {
  const { status, stdout, stderr } = bayboard(['history', id], { station })
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
  for (const each of words) expect(stdout).toContain(each)
})

test('of one element says nothing of another', () => {
  const { stdout } = bayboard(['history', 'H-1'], { station })
  expect(stdout).not.toContain('B-2')
})

test('changes no byte of the journal', () => {
  const before = journalOf(station)
  bayboard(['history', 'B-2'], { station })
  expect(journalOf(station)).toBe(before)
})

describe('of what is not there', () => {
  test('an unknown id ends with 1', () => {
    expect(bayboard(['history', 'C-777'], { station })).toEqual({
      status: 1,
      stdout: '',
      stderr: 'bayboard: There is no element, member, riding position, rig or tour C-777 in this station.\n',
    })
  })

  test('an id that would drive a terminal is quoted without that', () => {
    const { status, stderr } = bayboard(['history', '\u001b[2J\u202eX'], { station })
    expect(status).toBe(1)
    expect(stderr).toContain('tour X in this station')
    expect(stderr).not.toMatch(/[\u001b\u202e]/)
  })

  test('no station ends with 3', () => {
    const { status, stderr } = bayboard(['history', 'C-1'], { station: newPlace() })
    expect(status).toBe(3)
    expect(lines(stderr)).toHaveLength(1)
  })
})
