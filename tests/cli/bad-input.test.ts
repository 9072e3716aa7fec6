// Bad input, as a user gives it: one clear sentence, the documented exit status, and not one byte of the journal changed.
import { beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { bayboard, journalOf, lines, record, type Told } from './run.ts'
import { daysAgo, fitStation, HOUSE, MASK, reads, seats, stationWith } from './two-seats.ts'

const by = 'M-104'
const swap = (more: object): Told => ({ do: 'swap', by, seat: 'E6-1', ...more })
const element = (more: object): Told => ({
  do: 'add-element',
  by: 'setup',
  element: { id: 'C-500', kind: 'coat-shell', ...more },
})
const cared = (more: object): Told => ({
  do: 'record-care',
  by,
  element: 'C-1',
  care: 'drying',
  on: daysAgo(1),
  result: 'serviceable',
  ...more,
})

/** One sentence or two for a person: no code, no stack, nothing of the checker. */
const PLAIN = /^[A-Z"a-z0-9][^\n{}<>]*\.$/

describe('refused, in the words of the trade', () => {
  let station = ''
  beforeAll(() => {
    // The spare helmet is worn by the driver, the hood of that set is tagged, the gloves are away.
    station = fitStation(
      { do: 'swap', by, seat: 'E6-2', out: 'H-2', in: 'H-9' },
      { do: 'tag', by, element: 'K-9', reason: 'torn seam', matter: 'safety' },
      { do: 'send-away', by, elements: ['G-9'], to: 'Cleaning bench', for: 'advanced-cleaning' },
    )
  })

  test.each<[string, Told, string]>([
    ['an unknown element', reads('Y-77'), 'There is no element Y-77 in this station.'],
    ['an unknown member', seats('M-777', 'E6-1'), 'There is no member M-777 in this station.'],
    [
      'an unknown riding position',
      seats('M-207', 'E6-7'),
      'There is no riding position E6-7 in this station.',
    ],
    ['somebody unknown who says so', { do: 'note', by: 'M-777', text: 'x' }, 'There is no member M-777'],
    ['a duplicate id of an element', element({ id: 'C-1' }), 'C-1 is already the coat shell C-1.'],
    [
      'a duplicate id across kinds of things',
      element({ id: 'M-104' }),
      'M-104 is already the member Ada Varga.',
    ],
    [
      'a day that is not in the calendar',
      cared({ on: '2026-02-30' }),
      'on must be a calendar date written YYYY-MM-DD.',
    ],
    ['a day still to come', cared({ on: daysAgo(-2) }), 'is still to come'],
    [
      'a month that is no month',
      element({ made: '2024-13' }),
      'element.made must be a year and month written YYYY-MM.',
    ],
    [
      'an instant without its offset',
      { do: 'note', by, text: 'x', at: '2026-11-24T07:00:00' },
      'at must be an instant with its offset',
    ],
    ['a negative pressure', reads('Y-1', -1), 'psi cannot be negative.'],
    ['a pressure in a fraction', reads('Y-1', 4400.5), 'psi must be a whole number of psi.'],
    [
      'a pressure far over the rating',
      reads('Y-1', 5626),
      '5626 psi is far more than Y-1 is rated for (4500).',
    ],
    ['the pressure of a helmet', reads('H-1'), 'Helmet H-1 holds no pressure: only a cylinder is read.'],
    [
      'a spare of the wrong kind',
      swap({ out: 'C-1', in: 'B-9' }),
      'cannot take the place of coat shell C-1: it is another kind of element.',
    ],
    [
      'a spare that stands in elsewhere',
      swap({ out: 'H-1', in: 'H-9' }),
      'Helmet H-9 is already in use: it stands in at E6-2.',
    ],
    [
      'a spare that is somebody’s own',
      swap({ out: 'B-1', in: 'B-2' }),
      'Boots B-2 is already in use: it is issued to Bo Okoro (M-105).',
    ],
    [
      'a spare that is itself tagged',
      swap({ out: 'K-1', in: 'K-9' }),
      'Hood K-9 is itself out of service: torn seam.',
    ],
    [
      'a spare that is away',
      swap({ out: 'G-1', in: 'G-9' }),
      'Gloves G-9 is away at Cleaning bench for advanced cleaning.',
    ],
    ['a member seated twice', seats('M-105', 'E6-1'), 'Bo Okoro already rides at E6-2: nobody rides twice.'],
    [
      'a second tour',
      { do: 'open-tour', by, tour: 'T-2', platoon: 'B', officer: by, on: daysAgo(0) },
      'is still open. Hand it over first.',
    ],
    [
      'something not asked for',
      { do: 'note', by, text: 'x', colour: 'red' },
      'holds something not asked for: colour.',
    ],
    ['a command without its "by"', { do: 'note', text: 'x' }, 'by is missing.'],
    [
      'a fit test of a made-up result',
      { do: 'record-fit-test', by, member: by, facepiece: MASK, on: daysAgo(1), result: 'maybe' },
      'result must be one of: pass, fail.',
    ],
  ])('%s', (_, command, words) => {
    const before = journalOf(station)
    const { status, answers } = record(station, [command])
    expect(answers).toEqual([{ refused: expect.stringContaining(words) }])
    expect((answers[0] as { refused: string }).refused).toMatch(PLAIN)
    expect(status).toBe(1)
    expect(journalOf(station)).toBe(before)
  })

  test.each([
    ['half a command', '{"do":"note","by":"M-104"', /^Line 1 is not JSON\./],
    ['no command at all', 'open the tour please', /^Line 1 is not JSON\./],
    ['a list', '[]', /^A command needs a "do"\./],
    ['a number', '7', /^A command needs a "do"\./],
    ['null', 'null', /^A command needs a "do"\./],
    [
      'a line longer than any command',
      `{"do":"note","by":"M-104","text":"${'x'.repeat(4 << 20)}"}`,
      /^Line 1 is longer than any command\./,
    ],
  ])('%s', (_, input, words) => {
    const before = journalOf(station)
    const { status, stdout, stderr } = bayboard(['record'], { station, input: `${input}\n` })
    expect({ status, stderr }).toEqual({ status: 1, stderr: '' })
    expect(lines(stdout)).toHaveLength(1)
    expect((JSON.parse(stdout) as { refused: string }).refused).toMatch(words)
    expect(journalOf(station)).toBe(before)
  })

  test('bytes that are no text', () => {
    const before = journalOf(station)
    const { status } = bayboard(['record'], { station, input: '\u0000\ufffd\u0000\n' })
    expect(status).toBe(1)
    expect(journalOf(station)).toBe(before)
  })
})

describe('with no tour open', () => {
  let station = ''
  beforeEach(() => {
    station = stationWith(...HOUSE, seats('M-104', 'E6-1'))
  })

  test.each<[string, Told]>([
    ['a swap', swap({ out: 'H-1', in: 'H-9' })],
    ['a roll call', { do: 'answer', by, seat: 'E6-1' }],
    ['a hand-over', { do: 'hand-over', by, to: 'M-207' }],
  ])('%s is refused', (_, command) => {
    const before = journalOf(station)
    const { status, answers } = record(station, [command])
    expect(answers).toEqual([{ refused: expect.stringMatching(/^No tour is open/) }])
    expect(status).toBe(1)
    expect(journalOf(station)).toBe(before)
  })
})
