// The words of verdicts and the day each counts from, and the cases at the edge of a rule's own reading.
import { describe, expect, it } from 'vitest'
import type { Rule } from '../../../src/domain/policy/shape.ts'
import { judgePresence } from '../../../src/domain/rules/composition.ts'
import { newestCare } from '../../../src/domain/rules/dates.ts'
import { byWeight, verdict, type Verdict } from '../../../src/domain/rules/verdict.ts'
import type { Element } from '../../../src/domain/state.ts'
import { overlay } from '../overlay.ts'
import {
  called,
  cared,
  exposed,
  gear,
  noon,
  policyWith,
  presenceOf,
  read,
  ruleOf,
  tagged,
  tested,
  verdictOf,
  wearer,
} from './judging.ts'

const TODAY = { today: '2026-11-24' }
const AT = '2026-11-24T14:00:00.000-05:00'
const said = (rule: string, element: Element, worn = wearer()) => {
  const { says, since } = verdictOf(rule, element, TODAY, worn)!
  return { says, ...(since && { since }) }
}

describe('a tag', () => {
  const tags = [
    tagged('label torn', 'compliance', 41),
    tagged('burn hole', 'safety', 44),
    tagged('loose seam', 'safety', 42),
    tagged('faded', 'compliance', 40),
  ]
  const first = (some: typeof tags) => said('tagged-out', gear('hood', { tags: some })).says

  it('for safety is told before any other, the older first, and the others are counted', () => {
    for (const some of [tags, tags.toReversed()]) expect(first(some)).toBe('tagged, loose seam and 3 more')
    expect(first([tags[0]!, tags[3]!])).toBe('tagged, faded and 1 more')
    expect(first([tags[3]!, tags[0]!])).toBe('tagged, faded and 1 more')
    expect(first([tags[1]!])).toBe('tagged, burn hole')
  })
})

describe('an exposure', () => {
  it.each([
    ['wet', 'water', 'wet on 24 Nov 2026, needs drying', 'wet'],
    [
      'other-exposure',
      'other',
      'exposed on 24 Nov 2026, needs advanced cleaning or specialised cleaning',
      'exposed',
    ],
    [
      'body-fluid-exposure',
      'body-fluids',
      'exposed to body fluids on 24 Nov 2026, needs specialised cleaning',
      'exposed to body fluids',
    ],
  ] as const)('%s says what it was, when and what clears it', (rule, exposure, says, what) => {
    const element = gear('hood', { exposures: [exposed(exposure, AT)] })
    expect(said(rule, element)).toEqual({ says, since: { on: '2026-11-24', what } })
  })

  it('names the incident where there is one', () => {
    const exposures = [{ ...exposed('water', AT), incident: '26-0412' }]
    expect(said('wet', gear('hood', { exposures })).says).toBe('wet at 26-0412 on 24 Nov 2026, needs drying')
    expect(said('wet', gear('hood')).says).toBe('dry')
    expect(said('other-exposure', gear('hood')).says).toBe('no open exposure to other')
  })

  const state = (care: Partial<Parameters<typeof cared>[2]> & { on: string }, seq = 20) =>
    verdictOf(
      'wet',
      gear('hood', { exposures: [exposed('water', AT, seq)], cares: [cared('drying', care.on, care)] }),
      { today: '2026-11-27' },
    )!.state

  it('is not cleared by a care of the day before, however late that was entered', () => {
    expect(state({ on: '2026-11-23', seq: 21, at: noon('2026-11-26') })).toBe('out-of-service')
  })
  it('is cleared by a care of a later day, though it was itself entered after that care', () => {
    expect(state({ on: '2026-11-25', seq: 19 })).toBe('ready')
  })
})

describe('a pressure', () => {
  const since = { on: '2026-11-24', what: 'read 4100 psi at 14:00' }
  const cylinder = (psi: number, at: string, facts: Partial<Element> = { ratedPsi: 4500 }) =>
    gear('cylinder', { ...facts, readings: [read(psi, at)] })

  it('says when it was read, whatever it is found to be', () => {
    expect(said('cylinder-pressure', cylinder(4100, AT))).toEqual({ says: '4100 of 4500 psi', since })
    expect(said('cylinder-pressure', cylinder(4100, AT, {}))).toEqual({
      says: '4100 psi, but its rated pressure is not known',
      since,
    })
    expect(said('cylinder-pressure', cylinder(4100, AT, { ratedPsi: 5500 })).since).toEqual(since)
    expect(said('cylinder-pressure', cylinder(4100, '2026-11-23T14:00:00.000-05:00'))).toEqual({
      says: 'its pressure has not been read today, last 4100 psi',
      since: { ...since, on: '2026-11-23' },
    })
  })
})

describe('a fit test', () => {
  const mask = (size = 'M') => gear('facepiece', { model: 'Clear Two', size })
  const since = { on: '2026-02-01', what: 'fit test' }
  const on = (result: 'pass' | 'fail') => wearer([], { fitTests: [tested('2026-02-01', { result })] })

  it('says the day it was done, passed or failed', () => {
    expect(said('fit-test', mask(), on('pass')).since).toEqual(since)
    expect(said('fit-test', mask(), on('fail')).since).toEqual(since)
  })
  it('is with the same facepiece though a space stands on one of the labels', () => {
    expect(said('fit-test', mask(' m '), on('pass')).since).toEqual(since)
    const spaced = wearer([], {
      fitTests: [tested('2026-02-01', { facepiece: { model: ' clear two', size: 'M ' } })],
    })
    expect(said('fit-test', mask(), spaced).since).toEqual(since)
  })
})

describe('what must be there', () => {
  const since = { seq: 1, at: noon('2026-11-20'), by: 'M-104' }
  const away = gear('drag-rescue-device', {
    custody: { where: 'away', to: 'North Bench', for: 'repair', since },
  })
  const device = (assigned?: Element, coat: Partial<Element> = {}, rule?: Rule) =>
    judgePresence(
      rule ?? ruleOf('drag-rescue-device-by-edition'),
      'drag-rescue-device',
      assigned,
      wearer([gear('coat-shell', coat)]),
      verdict,
    )!

  it('is named where it is on the books, and nameless where none is', () => {
    expect(device(away, { edition: '1971-2018' })).toMatchObject({
      element: 'X-2',
      says: 'missing, it is away at North Bench for repair',
    })
    expect(device(undefined, { edition: '1971-2018' }).element).toBeNull()
  })

  it('of a coat whose edition is not known says so, away or not on the books', () => {
    expect(device(away).says).toBe(
      'missing, it is away at North Bench for repair, and the edition on X-0 is not known',
    )
    expect(device().says).toBe('missing, and the edition on coat shell X-0 is not known')
    expect(device(undefined, { edition: 'as the maker says' }).state).toBe('unproven')
  })

  it('is asked for always, or with its part always, where the rule names no edition', () => {
    const rule = ruleOf('drag-rescue-device-by-edition')
    for (const watch of [
      { part: 'coat-shell' as const },
      { part: 'always' as const, whenEdition: '>=2007' },
    ]) {
      expect(device(undefined, { edition: '1971-2000' }, { ...rule, watch }).state).toBe('missing')
    }
    expect(presenceOf('element-missing', 'hood', undefined)!.state).toBe('missing')
  })
})

describe('one assembly', () => {
  const judged = (mine: Partial<Element>, theirs: Partial<Element>) =>
    said('one-assembly', gear('coat-liner', mine), wearer([gear('coat-shell', theirs)])).says

  it('says whose mark is not known', () => {
    const known = { assembly: 'A-7', size: '44x32' }
    expect(judged({ size: '44x32' }, known)).toBe(
      'its assembly is not known, so they cannot be shown to match',
    )
    expect(judged(known, { size: '44x32' })).toBe(
      "coat shell X-0's assembly is not known, so they cannot be shown to match",
    )
  })
  it('is the same only where the mark is written the same, while a size may be written otherwise', () => {
    expect(judged({ assembly: 'a-7', size: '44 x 32' }, { assembly: 'A-7', size: '44X32' })).toBe(
      'assembly a-7 does not match coat shell X-0 of assembly A-7',
    )
  })
})

describe('an interval', () => {
  it('counts from the roll call where both fell on one day', () => {
    const both = gear('air-pack', {
      cares: [cared('routine-inspection', '2026-11-01')],
      called: called('2026-11-01'),
    })
    expect(newestCare(both, 'routine-inspection')!.what).toBe('roll call or reading')
  })
  it('counts from the care where its limit and the first fall on one day', () => {
    const liner = gear('coat-liner', { cares: [cared('complete-liner-inspection', '2026-01-10')] })
    expect(verdictOf('complete-liner-inspection-interval', liner, TODAY)!.since).toEqual({
      on: '2026-01-10',
      what: 'complete liner inspection',
    })
  })
  it('from manufacture is unproven on the rack too, when neither the month nor a test is known', () => {
    const rack = { issuedTo: null, issuedOn: null, construction: 'carbon' as const }
    expect(verdictOf('hydrostatic-test-interval', gear('cylinder', rack), TODAY)!.state).toBe('unproven')
  })
  it('is none for a construction that the department leaves out, though what the base says stays in view', () => {
    const policy = policyWith(overlay({ id: 'hydrostatic-test-interval', limit: { steel: 'P5Y' } }))
    const carbon = gear('cylinder', {
      construction: 'carbon',
      cares: [cared('hydrostatic-test', '2020-01-10')],
    })
    expect(verdictOf('hydrostatic-test-interval', carbon, { ...TODAY, policy })).toMatchObject({
      state: 'ready',
      loosened: 'expired',
    })
  })
})

describe('the weight of verdicts', () => {
  const one = (more: Partial<Verdict>): Verdict => ({
    element: 'X-1',
    kind: 'hood',
    state: 'expired',
    matter: 'safety',
    rule: 'wet',
    says: 'wet',
    on: null,
    ...more,
  })
  it.each<[string, Partial<Verdict>, Partial<Verdict>, number]>([
    ['the same', {}, {}, 0],
    ['the same date', { on: '2026-01-01' }, { on: '2026-01-01' }, 0],
    ['no date and a date', {}, { on: '2026-01-01' }, 1],
    ['safety and compliance', {}, { matter: 'compliance' }, -1],
    [
      'compliance of two dates',
      { matter: 'compliance', on: '2026-02-01' },
      { matter: 'compliance', on: '2026-01-01' },
      1,
    ],
    ['worse and better', { matter: 'compliance', state: 'missing' }, { on: '2020-01-01' }, -1],
  ])('of %s', (_title, a, b, sign) => {
    expect(Math.sign(byWeight(one(a), one(b)))).toBe(sign)
    expect(Math.sign(byWeight(one(b), one(a)))).toBe(sign ? -sign : 0)
  })
})
