// The demonstration station: whenever and wherever it is made, every command is taken and the same lesson stands on the board.
import { describe, expect, it } from 'vitest'
import { assessNow, assessSeat, settingOf } from '../src/domain/assess.ts'
import { openItems } from '../src/domain/items.ts'
import { policyOf } from '../src/domain/policy/in-force.ts'
import { onDuty } from '../src/domain/rotation.ts'
import { rankSpares } from '../src/domain/spares.ts'
import { dateOf } from '../src/domain/time.ts'
import { boardOf, give, make, standing, usual } from './demo-station.ts'

const ZONES = ['America/New_York', 'Asia/Tokyo', 'UTC', 'Australia/Sydney']
const NOWS: [string, string][] = [
  ['noon on 29 February', '2028-02-29T12:00:00Z'],
  ['the first second of 1 March', '2027-03-01T00:00:00Z'],
  ['the last second of 31 December', '2026-12-31T23:59:59Z'],
  ['ten minutes after New York skips an hour', '2026-03-08T07:10:00Z'],
  ['the second half past one of the day New York gains an hour', '2026-11-01T06:30:00Z'],
  ['twenty minutes after Sydney skips an hour', '2026-10-03T16:20:00Z'],
  ['the second ten past two of the day Sydney gains an hour', '2027-04-03T16:10:00Z'],
  ['midnight in Tokyo', '2026-08-31T15:00:00Z'],
  ['a quarter to eight in the morning in New York', '2026-11-25T12:45:00Z'],
]
const CASES = NOWS.flatMap(([words, now]) => ZONES.map((zone) => ({ words, now, zone })))

describe.each(CASES)('made at $words, in $zone', ({ now, zone }) => {
  it('has every command accepted', () => {
    expect(standing(now, zone).refused).toEqual([])
  })

  it('tells its past in order and nothing of the future', () => {
    const { demo } = standing(now, zone)
    const times = [demo.madeAt, ...demo.commands.map((command) => command.at)].map(Date.parse)
    expect(times.filter((time, index) => index > 0 && time < times[index - 1]!)).toEqual([])
    expect(times.at(-1)).toBeLessThanOrEqual(Date.parse(now))
  })

  it('shows the same lesson, row by row', () => {
    const rows = boardOf(standing(now, zone)).rigs.map((rig) => rig.rows.map((row) => row.state))
    expect(rows).toEqual([
      ['ready', 'ready', 'due', 'unproven', 'out-of-service', 'expired'],
      ['ready', 'ready', 'out-of-service', 'ready', 'unfilled', 'missing'],
    ])
  })

  it('has the platoon in the house that the rotation puts there that day', () => {
    const { state, at } = standing(now, zone)
    const [platoon] = onDuty('24/48', ['A', 'B', 'C'], dateOf(at))
    expect(state.tour).toMatchObject({ platoon, on: dateOf(at), id: `${dateOf(at)}-${platoon}` })
    expect(state.members.get(state.tour!.officer)?.platoon).toBe(platoon)
  })

  it('keeps the gear of everybody off duty in order, but for one fit test and one pair of boots', () => {
    const { state, at } = standing(now, zone)
    const setting = settingOf(state, policyOf(state), at)
    const seat = state.seats.get('E9-1')!
    const unfit = [...state.members.values()]
      .filter((member) => member.seat === null && member.platoon !== state.tour!.platoon)
      .map((member) => assessSeat(state, setting, { ...seat, member: member.id }))
      .filter((each) => !each.fit)
      .map(({ reasons: [worst] }) => `${worst!.rule} ${worst!.kind} ${worst!.state}`)
    expect(unfit).toEqual(['advanced-inspection-interval boots expired', 'fit-test facepiece expired'])
  })
})

describe('the open tour', () => {
  it('is half called: some have answered, some cylinders are only read, some neither', () => {
    const { rollCall } = boardOf(usual())
    expect(rollCall).toMatchObject({ answered: 6, filled: 11, complete: false })
  })

  it('says in words why five may not ride and that neither rig can', () => {
    const { headline, rigs } = boardOf(usual())
    expect(headline).toMatch(/^5 may not ride; 1 unfilled\. Engine 9 and Ladder 9 cannot ride\.$/)
    expect(rigs.flatMap((rig) => rig.rows).map((row) => row.sentence)).toEqual([
      '',
      '',
      expect.stringContaining('6 months from advanced cleaning ends on'),
      expect.stringContaining('its pressure has not been read this tour'),
      expect.stringMatching(/^Hood .* exposed to products of combustion/),
      expect.stringMatching(/^Helmet .* 10 years from manufacture ended/),
      '',
      '',
      expect.stringMatching(/^Coat liner .* torn seam/),
      '',
      'Nobody rides here.',
      expect.stringMatching(/^Gloves .* missing, it is away/),
    ])
  })

  it('holds an element whose label shows no date', () => {
    const roof = boardOf(usual()).rigs[1]!.rows[5]!
    expect(roof.reasons.map((reason) => reason.text)).toContainEqual(
      expect.stringMatching(/^Hood .* no date of manufacture/),
    )
  })

  it('flags the one rule that the overlay loosened, and where it counts', () => {
    const board = boardOf(usual())
    expect(board.policy.looser).toEqual([expect.stringMatching(/^flow test interval: warns 14 days/)])
    expect(board.rigs[0]!.rows[4]!.reasons).toContainEqual(
      expect.objectContaining({ rule: 'flow-test-interval', state: 'due', looser: true }),
    )
  })

  it('has every air pack that went to a fire checked since, and all breathing apparatus inspected this month', () => {
    const { state, at, demo } = usual()
    const burned = demo.commands.flatMap((command) =>
      command.do === 'record-exposure' && command.exposure === 'products-of-combustion'
        ? (command.seats ?? [])
        : [],
    )
    expect(new Set(burned).size).toBeGreaterThan(5)
    const verdicts = assessNow(state, at).rigs.flatMap((rig) =>
      rig.seats.flatMap((seat) => seat.places.flatMap((place) => place.verdicts)),
    )
    const said = (rule: string) => verdicts.filter((each) => each.rule === rule).map((each) => each.state)
    expect(said('function-check-after-use')).toEqual(Array(11).fill('ready'))
    expect(said('breathing-apparatus-monthly-inspection')).toEqual(Array(22).fill('ready'))
  })

  it('leaves open items to read back: gloves away, evidence held, a stand-in, tags and an exposure', () => {
    const { state } = usual()
    const kinds = openItems(state).map((item) => /^(tag|away|held|stand-in|exposure)/.exec(item.id)![0])
    expect(new Set(kinds)).toEqual(new Set(['tag', 'away', 'held', 'stand-in', 'exposure']))
    expect(state.tour!.acknowledged.size).toBe(2)
  })
})

describe('what the user can mend', () => {
  it('has Engine 9 ride once the unread cylinder is read', () => {
    const { demo, at } = usual()
    const { state } = make('2026-11-25T12:45:00Z', demo.station.timeZone)
    const by = state.tour!.officer
    expect(give(state, { do: 'read-pressure', by, at, element: 'Y-404', psi: 4400 })).toBeUndefined()
    expect(assessNow(state, at).rigs.map((rig) => rig.canRide)).toEqual([true, false])
  })

  it('has Ladder 9 ride once the whole coat of the right size is swapped in, layer by layer', () => {
    const { demo, at } = usual()
    const { state } = make('2026-11-25T12:45:00Z', demo.station.timeZone)
    const [best] = rankSpares(state, policyOf(state), at, 'L9-3', 'coat-liner')
    expect(best).toMatchObject({ fits: true, exact: true })
    expect(best!.elements.map((each) => each.size)).toEqual(['44x32', '44x32', '44x32'])
    const wearing = assessNow(state, at).rigs[1]!.seats[2]!.places
    for (const { id, kind } of best!.elements) {
      const out = wearing.find((place) => place.kind === kind)!.element!.id
      const by = state.tour!.officer
      expect(give(state, { do: 'swap', by, at, seat: 'L9-3', out, in: id })).toBeUndefined()
    }
    expect(assessNow(state, at).rigs.map((rig) => rig.canRide)).toEqual([false, true])
  })

  it('also offers a coat of a wrong size and one past its ten years, and says what is against them', () => {
    const { state, at } = usual()
    const spares = rankSpares(state, policyOf(state), at, 'L9-3', 'coat-liner')
    const against = spares.filter((spare) => !spare.fits).map((spare) => spare.against.join(' '))
    expect(against).toContainEqual(expect.stringContaining('does not fit'))
    expect(against).toContainEqual(expect.stringContaining('10 years from manufacture ended'))
  })
})
