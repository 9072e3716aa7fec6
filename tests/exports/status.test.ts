// Tests of what `status` prints of the Board.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { assessNow } from '../../src/domain/assess.ts'
import { arrange, type Board } from '../../src/domain/board.ts'
import { INVENTED } from '../../src/domain/signs.ts'
import { statusJson, statusShape, statusText } from '../../src/exports/status.ts'
import { UNSAFE } from './made.ts'
import { instant, type Recorder } from './recorder.ts'
import { fullTour, house, OVERLAY, smallTour } from './tours.ts'

const boardOf = ({ state }: Recorder, when = '25 08:00'): Board =>
  arrange(assessNow(state, instant(when)), state)

/** Open, one of two answered; the boots are tagged and a looser rule is in force. */
function openTour(options: Parameters<typeof house>[0] = {}): Recorder {
  const log = house(options)
  const tour = { tour: '2026-11-24-B', platoon: 'B', officer: 'M-104', on: '2026-11-24' }
  log.record('24 07:00', 'M-104', { do: 'open-tour', ...tour })
  log.record('24 07:01', 'M-104', { do: 'seat-member', seat: 'E6-1', member: 'M-104' })
  log.record('24 07:02', 'M-104', { do: 'adopt-policy', overlay: OVERLAY })
  log.record('24 07:03', 'M-104', { do: 'tag', element: 'B-1', reason: 'sole separation', matter: 'safety' })
  return log
}

describe('status as data', () => {
  test('has exactly the members that the contract names, and the mark and the policy after them', () => {
    const status = statusJson(boardOf(openTour(), '24 07:05'))
    expect(Object.keys(status)).toEqual([
      'at',
      'station',
      'tour',
      'rigs',
      'invented',
      'policy',
      'stopped',
      'torn',
    ])
    expect(status.at).toBe(instant('24 07:05'))
    expect(status.tour).toEqual({ id: '2026-11-24-B', platoon: 'B', officer: 'M-104' })
    expect(Object.keys(status.rigs[0]!)).toEqual(['id', 'canRide', 'minimum', 'fit', 'seats'])
    expect(status.rigs[0]!.seats[1]).toEqual({
      id: 'E6-2',
      position: 'Driver',
      member: null,
      answered: false,
      state: 'unfilled',
      fit: false,
      reasons: [],
    })
    expect(status.rigs[0]!.seats[0]!.reasons[0]).toEqual({
      element: 'B-1',
      kind: 'boots',
      state: 'out-of-service',
      matter: 'safety',
      rule: 'tagged-out',
      text: 'Boots B-1: tagged, sole separation.',
      on: null,
    })
  })

  test.each([
    ['no tour', house],
    ['a closed tour', smallTour],
    ['an open tour', openTour],
    ['a full tour', fullTour],
  ])('with %s conforms to its published shape', (_, made) => {
    expect(statusShape.safeParse(statusJson(boardOf(made()))).error).toBeUndefined()
  })

  test('without a tour says null', () => {
    expect(statusJson(boardOf(smallTour())).tour).toBeNull()
  })

  test('its shape can be printed as JSON Schema', () => {
    expect(z.toJSONSchema(statusShape)).toMatchObject({
      required: ['at', 'station', 'tour', 'rigs', 'invented', 'policy', 'stopped', 'torn'],
    })
  })
})

describe('status as text', () => {
  test('says every riding position with its state, its reasons, the roll call and the policy', () => {
    expect(statusText(boardOf(openTour(), '24 07:05'), true)).toBe(`\
Larch Hill Station, 24 Nov 2026 07:05
${INVENTED}
1 may not ride: A. Varga; 1 unfilled. Engine 6 cannot ride.
Tour 2026-11-24-B, platoon B, officer A. Varga (M-104).
Roll call not complete: 0 of 1 answered.

Engine 6 (E6) cannot ride: 0 fit, 1 needed; without Officer
  ■ out of service  E6-1 Officer: A. Varga (M-104), roll call not answered
      ■ out of service (safety): Boots B-1: tagged, sole separation.
      ? unproven (safety): Cylinder Y-1: its pressure has not been read.
      △ due (compliance): Air pack P-1: first routine inspection within 1 month of issue ended on 1 Nov 2026; call the roll for it, or record a routine inspection.
      △ due (compliance): Cylinder Y-1: first routine inspection within 1 month of issue ended on 1 Nov 2026; call the roll for it, or record a routine inspection.
  – unfilled        E6-2 Driver: nobody

Policy: NFPA 1851 (2020) with 29 CFR 1910.134 and 49 CFR 180, with overlay "Larch Hill".
Provisional: Figures for the complete liner inspection are from the 2008 edition and from memory.
Looser than the published base: advanced cleaning interval: limit 8 months, not 6 months (one washer for two stations).
`)
  })

  test('an answer does not stand for gear that has met smoke since: it says whose gear has changed', () => {
    const log = openTour()
    const act = (when: string, command: Record<string, unknown>) => log.record(when, 'M-104', command)
    act('24 07:05', { do: 'read-pressure', element: 'Y-1', psi: 4400 })
    act('24 07:10', { do: 'answer', seat: 'E6-1', findings: [] })
    const answered = statusText(boardOf(log, '24 07:11'), true)
    expect(answered).toContain('\nRoll call complete: 1 of 1 answered, last 07:10.\n')
    expect(answered).toContain(' E6-1 Officer: A. Varga (M-104)\n')
    act('24 09:00', { do: 'record-exposure', exposure: 'products-of-combustion', seats: ['E6-1'] })
    const burnt = statusText(boardOf(log, '24 09:01'), true)
    expect(burnt).toContain('last 07:10. Gear has changed since they answered: A. Varga.\n')
    expect(burnt).toContain(' E6-1 Officer: A. Varga (M-104), roll call answered, gear changed since\n')
  })

  test('shows each reason of the Board once', () => {
    const board = boardOf(fullTour())
    const lines = statusText(board, false).split('\n')
    const reasons = board.rigs.flatMap((rig) => rig.rows.flatMap((row) => row.reasons))
    expect(reasons.length).toBeGreaterThan(10)
    for (const { text } of reasons) expect(lines.filter((line) => line.includes(text))).toHaveLength(1)
  })

  test('without Unicode is ASCII alone, and a real station has no mark', () => {
    const text = statusText(boardOf(openTour({ invented: false })), false)
    expect(text).toMatch(/^[\n\x20-\x7e]*$/)
    expect(text).toContain('  # out of service  E6-1')
    expect(text).not.toContain(INVENTED)
  })

  test('holds no control or bidirectional mark, even from a journal that held one', () => {
    const board = boardOf(openTour({ name: 'Larch\u202e Hill\u001b[31m' }))
    expect(statusText(board, true)).toMatch(/^Larch Hill, /)
    expect(statusText(board, true)).not.toMatch(UNSAFE)
    expect(JSON.stringify(statusJson(board))).not.toMatch(UNSAFE)
  })
})
