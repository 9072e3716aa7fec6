// The example overlays that are shipped: each can be adopted on every base, and does what the law it names asks for.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { Care, Kind } from '../../src/domain/kinds.ts'
import { BASES } from '../../src/domain/policy/bases.ts'
import { faultsOf } from '../../src/domain/policy/in-force.ts'
import { overlayShape, type Overlay } from '../../src/domain/policy/shape.ts'
import { sayVerdict } from '../../src/domain/rules/verdict.ts'
import type { Element } from '../../src/domain/state.ts'
import { called, cared, gear, policyWith, verdictOf } from './rules/judging.ts'

const FOLDER = new URL('../../data/policies/overlays/', import.meta.url)
const files = readdirSync(FOLDER)
const textOf = (file: string): unknown => JSON.parse(readFileSync(new URL(file, FOLDER), 'utf8'))
const read = (name: string): Overlay => overlayShape.parse(textOf(`${name}.json`))

describe.each(files)('%s', (file) => {
  it('is of the shape of an overlay, word for word, and says in its name that it is an example', () => {
    const overlay = overlayShape.parse(textOf(file))
    expect(overlay).toEqual(textOf(file))
    expect(overlay.name).toContain('(example)')
  })

  it.each([...BASES.keys()])('has no fault on %s', (id) => {
    expect(faultsOf(BASES.get(id)!, overlayShape.parse(textOf(file)))).toEqual([])
  })
})

it('there are five of them', () => {
  expect(files.toSorted()).toEqual([
    'cylinder-until-emptied.json',
    'maine-breathing-apparatus-monthly.json',
    'maine-breathing-apparatus-weekly.json',
    'texas-breathing-apparatus.json',
    'washington-garments.json',
  ])
})

const done = (care: Care, on: string): Partial<Element> => ({ cares: [cared(care, on)] })
const looser = (name: string) => policyWith(read(name)).rules.flatMap(({ looser }) => looser ?? [])

describe('Washington', () => {
  const policy = policyWith(read('washington-garments'))
  const GARMENTS: Kind[] = [
    'coat-shell',
    'coat-liner',
    'drag-rescue-device',
    'trouser-shell',
    'trouser-liner',
  ]
  const on = (kind: Kind, today: string, facts = done('advanced-inspection', '2026-05-24')) =>
    verdictOf('washington-garment-inspection', gear(kind, facts), { today, policy })?.state

  // WAC 296-305-02002: protective garments are inspected every six months.
  it.each(GARMENTS)('has a %s inspected every six months', (kind) => {
    expect(['2026-10-24', '2026-10-25', '2026-11-24', '2026-11-25'].map((day) => on(kind, day))).toEqual([
      'ready',
      'due',
      'due',
      'expired',
    ])
    expect(on(kind, '2026-11-24', { issuedOn: null })).toBe('unproven')
    expect(on(kind, '2024-07-10', {})).toBe('due')
    expect(on(kind, '2024-07-11', {})).toBe('expired')
  })

  it('asks it of garments alone, and leaves the yearly inspection as it was', () => {
    expect(on('helmet', '2026-11-25')).toBeUndefined()
    const helmet = gear('helmet', done('advanced-inspection', '2026-05-24'))
    expect(verdictOf('advanced-inspection-interval', helmet, { today: '2026-11-25', policy })!.state).toBe(
      'ready',
    )
    expect(looser('washington-garments')).toEqual([])
  })
})

describe('breathing apparatus', () => {
  const RULE = 'breathing-apparatus-monthly-inspection'
  const states = (name: string, facts: Partial<Element>, days: string[]) => {
    const policy = policyWith(read(name))
    return (['air-pack', 'cylinder'] as const).map((kind) =>
      days.map((today) => verdictOf(RULE, gear(kind, facts), { today, policy })!.state),
    )
  }

  // Texas Government Code 419.041: inspected monthly. 26 MRSA 2105: monthly for volunteer departments.
  it.each(['texas-breathing-apparatus', 'maine-breathing-apparatus-monthly'])(
    '%s: good for a month, and expired the day after',
    (name) => {
      const row = ['ready', 'expired']
      expect(states(name, done('routine-inspection', '2026-10-24'), ['2026-11-24', '2026-11-25'])).toEqual([
        row,
        row,
      ])
      expect(states(name, { called: called('2026-10-24') }, ['2026-11-24', '2026-11-25'])).toEqual([row, row])
      expect(states(name, { issuedOn: null }, ['2026-11-24'])).toEqual([['unproven'], ['unproven']])
      expect(looser(name)).toEqual([])
    },
  )

  // Texas Government Code 419.041(e): tested yearly, which the base already asks.
  it('Texas: the flow test stays yearly', () => {
    const policy = policyWith(read('texas-breathing-apparatus'))
    const pack = gear('air-pack', done('flow-test', '2025-11-24'))
    const on = (today: string) => verdictOf('flow-test-interval', pack, { today, policy })!.state
    expect([on('2026-11-24'), on('2026-11-25')]).toEqual(['due', 'expired'])
  })

  // 26 MRSA 2105: weekly for full-time departments.
  it('Maine, weekly: due on the sixth day and the seventh, expired on the eighth', () => {
    const days = ['2026-11-22', '2026-11-23', '2026-11-24', '2026-11-25']
    const row = ['ready', 'due', 'due', 'expired']
    expect(states('maine-breathing-apparatus-weekly', { called: called('2026-11-17') }, days)).toEqual([
      row,
      row,
    ])
    expect(looser('maine-breathing-apparatus-weekly')).toEqual([])
  })
})

describe('a cylinder until it is emptied', () => {
  const policy = policyWith(read('cylinder-until-emptied'))
  const carbon = (facts: Partial<Element>) => gear('cylinder', { construction: 'carbon', ...facts })
  const tested = carbon(done('hydrostatic-test', '2021-11-24'))
  const on = (today: string, element = tested) =>
    verdictOf('hydrostatic-test-interval', element, { today, policy })!

  // PHMSA interpretation 09-0148: filled before its test fell due, it may stay in service until emptied, not refilled.
  it('is due past its test and says not to refill it, and what the published base would say', () => {
    expect(on('2026-11-24')).toMatchObject({ state: 'due' })
    expect(on('2026-11-24').loosened).toBeUndefined()
    expect(on('2026-11-25')).toMatchObject({ state: 'due', loosened: 'expired' })
    expect(sayVerdict(on('2026-11-25'))).toBe(
      'Cylinder X-11: 5 years from hydrostatic test ended on 24 Nov 2026; do not refill it past its test date.',
    )
    expect(looser('cylinder-until-emptied')).toEqual(['past its limit it is due, not expired'])
  })

  it('of unknown construction, or with neither test nor month, stays unproven', () => {
    expect(on('2026-11-25', gear('cylinder', done('hydrostatic-test', '2021-11-24'))).state).toBe('unproven')
    expect(on('2026-11-25', carbon({})).state).toBe('unproven')
  })

  it('says nothing of refilling while its test is far off', () => {
    expect(on('2025-01-01').says).toBe('5 years from hydrostatic test runs to 24 Nov 2026')
  })
})
