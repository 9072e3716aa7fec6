// `bayboard status`: every riding position with its reasons, now and at another instant, from a real process.
import { beforeAll, describe, expect, test } from 'vitest'
import { statusShape, type Status } from '../../src/exports/status.ts'
import { bayboard, journalOf, recorded } from './run.ts'
import {
  answers,
  daysAgo,
  emptyStation,
  fitStation,
  fitTested,
  HOUSE,
  instant,
  MADE,
  OPEN,
  TOUR,
} from './two-seats.ts'

const json = (station: string, at?: string): { status: number | null; told: Status } => {
  const ran = bayboard(['status', '--json', ...(at === undefined ? [] : ['--at', at])], { station })
  return { status: ran.status, told: statusShape.parse(JSON.parse(ran.stdout)) }
}
const reasonsOf = ({ rigs }: Status, seat: string) =>
  rigs.flatMap((rig) => rig.seats).find((each) => each.id === seat)!.reasons

describe('of a crew that is fit to ride', () => {
  let station = ''
  beforeAll(() => {
    station = fitStation()
  })

  test('ends with 0 and says of each position that it is ready', () => {
    const { status, stdout, stderr } = bayboard(['status'], { station })
    expect(stderr).toBe('')
    expect(stdout).toContain('E6-1 Officer: Ada Varga (M-104), roll call not answered')
    expect(stdout).toContain(`Tour ${TOUR}, platoon B, officer Ada Varga (M-104).`)
    expect(status).toBe(0)
  })

  test('as JSON has the published shape and the roll call as a fact of its own', () => {
    const { status, told } = json(station)
    expect(status).toBe(0)
    expect(told).toMatchObject({
      station: 'Station 6',
      tour: { id: TOUR, platoon: 'B', officer: 'M-104' },
      rigs: [{ id: 'E6', canRide: true, minimum: 2, fit: 2 }],
      invented: false,
    })
    expect(told.rigs[0]!.seats[0]).toMatchObject({ member: 'M-104', answered: false, fit: true, reasons: [] })
  })

  test('changes no byte of the journal', () => {
    const before = journalOf(station)
    json(station)
    expect(journalOf(station)).toBe(before)
  })

  test('holds no colour codes and no symbols where the locale has none', () => {
    const { stdout } = bayboard(['status'], { station, env: { LANG: 'C' } })
    expect(stdout).toMatch(/^[\n -~]+$/)
  })

  test('without --station is asked of the folder that BAYBOARD_STATION names', () => {
    const { stdout } = bayboard(['status'], { env: { BAYBOARD_STATION: station } })
    expect(stdout).toContain('Station 6')
  })

  // Ten years from manufacture counts from the first day of the label's month, in the station's zone (seven hours behind UTC).
  const tenth = `${Number(MADE.slice(0, 4)) + 10}${MADE.slice(4)}-01`
  const lifeOf = (at: string) =>
    reasonsOf(json(station, at).told, 'E6-1').find(
      ({ rule, element }) => rule === 'structural-service-life' && element === 'H-1',
    )

  test('one millisecond before the tenth year is over the helmet is due', () => {
    const at = new Date(Date.parse(`${tenth}T00:00:00-07:00`) - 1).toISOString()
    expect(lifeOf(at)).toMatchObject({ state: 'due', matter: 'compliance', on: tenth })
  })

  test('from the first moment of that day the helmet is expired', () => {
    expect(lifeOf(`${tenth}T00:00:00-07:00`)).toMatchObject({ state: 'expired', on: tenth })
    expect(lifeOf(`${tenth}T07:00:00Z`)).toMatchObject({ state: 'expired' })
  })

  test('at an instant tells that instant in the time zone of the station', () => {
    expect(json(station, `${tenth}T07:00:00Z`).told.at).toBe(`${tenth}T00:00:00.000-07:00`)
  })

  test('before anything was recorded there is nothing to judge, and that is no "ready"', () => {
    const { status, stdout, stderr } = bayboard(['status', '--at', '2001-01-01T00:00:00Z'], { station })
    expect({ status, stdout }).toEqual({ status: 1, stdout: '' })
    expect(stderr).toBe('bayboard: Nothing was recorded in this station before 2001-01-01T00:00:00Z.\n')
  })

  test('at a date and time by the station’s own clock says whose clock it took', () => {
    for (const at of [`${tenth} 00:00`, `${tenth}T00:00`, `${tenth} 00:00:00`]) {
      const { stdout, stderr } = bayboard(['status', '--json', '--at', at], { station })
      expect((JSON.parse(stdout) as Status).at).toBe(`${tenth}T00:00:00.000-07:00`)
      expect(stderr).toBe(`Note: --at ${at} was taken by the clock of the station, America/Phoenix.\n`)
    }
  })

  test.each(['yesterday', '2026-11-24', '2026-11-24 25:00', '2026-02-30 07:00', '2026-02-30T07:00:00Z', ''])(
    'at %j is wrong usage: an instant has its date and time',
    (at) => {
      const { status, stderr } = bayboard(['status', '--at', at], { station })
      expect(stderr).toMatch(/^bayboard: --at .*is not a date and time\. Write it [^\n]+\n$/)
      expect(status).toBe(2)
    },
  )
})

describe('of a crew with something wrong', () => {
  test('ends with 1 and names the element, the rule and whether it is safety or compliance', () => {
    const station = fitStation(
      answers('E6-2', [{ element: 'B-2', point: 'sole separation', matter: 'safety' }]),
    )
    const { status, told } = json(station)
    expect(status).toBe(1)
    expect(told.rigs[0]).toMatchObject({ canRide: false, fit: 1 })
    expect(reasonsOf(told, 'E6-2')).toEqual([
      {
        element: 'B-2',
        kind: 'boots',
        state: 'out-of-service',
        matter: 'safety',
        rule: 'tagged-out',
        text: expect.stringContaining('sole separation'),
        on: null,
      },
    ])
    const text = bayboard(['status'], { station })
    expect(text.stdout).toContain('sole separation')
    expect(text.status).toBe(1)
  })

  test('a fit test recorded late was not known before it was recorded', () => {
    const station = fitStation({ ...fitTested('M-105', 3), result: 'fail' })
    const meanwhile = instant()
    const before = reasonsOf(json(station).told, 'E6-2')
    expect(before).toContainEqual(expect.objectContaining({ rule: 'fit-test' }))
    recorded(station, [{ ...fitTested('M-105', 2), at: instant(86_400_000) }])
    expect(reasonsOf(json(station).told, 'E6-2')).toEqual([])
    expect(reasonsOf(json(station, meanwhile).told, 'E6-2')).toEqual(before)
  })

  test('a past entered afterwards, before anything was recorded as it happened, is taken at its word', () => {
    const days = (count: number) => instant(count * 86_400_000)
    const entered = [...HOUSE.filter((each) => each.by === 'setup'), { ...OPEN, on: daysAgo(9) }].map(
      (each) => ({
        ...each,
        at: days(9),
      }),
    )
    const station = emptyStation()
    recorded(station, entered)
    recorded(station, [{ do: 'note', by: 'M-104', text: 'entered from paper', at: days(5) }])
    expect(json(station, days(7)).told.tour).not.toBeNull()
    expect(bayboard(['status', '--at', days(10)], { station }).stderr).toContain('Nothing was recorded')
  })

  test('an unfilled position keeps a rig in when its minimum crew is not met', () => {
    const station = fitStation({ do: 'clear-seat', by: 'M-104', seat: 'E6-2' })
    const { status, told } = json(station)
    expect(status).toBe(1)
    expect(told.rigs[0]!.seats[1]).toMatchObject({ member: null, state: 'unfilled', fit: false, reasons: [] })
  })
})

test('there is no status of a station that is not there', () => {
  const { status, stdout, stderr } = bayboard(['status', '--json'], { station: `${emptyStation()}-not` })
  expect({ status, stdout }).toEqual({ status: 3, stdout: '' })
  expect(stderr).toMatch(/^bayboard: There is no station in .* Make one with "bayboard init"/)
})
