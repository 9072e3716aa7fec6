// What an overlay may not say, in the sentences that the user reads.
import { describe, expect, it } from 'vitest'
import { faultsOf, sayLimit } from '../../src/domain/policy/in-force.ts'
import { overlayShape, ruleShape, type Overlay } from '../../src/domain/policy/shape.ts'
import { overlay, reason } from './overlay.ts'
import { BASE, ruleOf } from './rules/judging.ts'

const accepts = (given: object) => overlayShape.safeParse({ name: 'Alder Hollow', ...given }).success
const takesPressure = (atMost: number) =>
  ruleShape.safeParse({ ...ruleOf('cylinder-pressure'), watch: { reading: 'pressure', atMost, of: 'rated' } })
    .success

describe('an overlay is faulted', () => {
  const wet = { ...ruleOf('wet'), reason }
  it.each<[string, Overlay, string[]]>([
    ['never, when it is in order', overlay({ id: 'fit-test', limit: 'P6M' }), []],
    [
      'for a rule changed twice',
      overlay({ id: 'fit-test', limit: 'P6M' }, { id: 'fit-test', warn: 'P60D' }),
      ['Change 2: rule "fit-test" is changed twice.'],
    ],
    [
      'for a limit where there is none to change',
      overlay({ id: 'wet', limit: 'P6M' }),
      ['Change 1: rule "wet" has no limit to change.'],
    ],
    [
      'for a limit by construction of gear that has none',
      overlay({ id: 'fit-test', limit: { carbon: 'P1Y' } }),
      ['Change 1: rule "fit-test" is not about cylinders alone, so its limit cannot go by construction.'],
    ],
    [
      'for a change that changes nothing',
      overlay({ id: 'fit-test' }),
      ['Change 1: it changes nothing of rule "fit-test".'],
    ],
    ['never, for a rule switched off and no more', overlay({ id: 'fit-test', off: true }), []],
    [
      'for a rule that is already there',
      { ...overlay(), add: [wet] },
      ['Added rule 1: there is already a rule "wet". Change it, or give the new one another id.'],
    ],
    [
      'for two new rules of one id',
      {
        ...overlay(),
        add: [
          { ...wet, id: 'dry' },
          { ...wet, id: 'dry' },
        ],
      },
      ['Added rule 2: there is already a rule "dry". Change it, or give the new one another id.'],
    ],
    [
      'for a new rule that counts days without a limit',
      { ...overlay(), add: [{ ...wet, id: 'dry', watch: { since: 'manufactured' as const } }] },
      ['Added rule 1: rule "dry" needs a limit.'],
    ],
  ])('%s', (_name, given, faults) => {
    expect(faultsOf(BASE, given)).toEqual(faults)
  })

  it('for a rule that the base has not, naming those it has', () => {
    const [fault] = faultsOf(BASE, overlay({ id: 'socks', off: true }))
    expect(fault).toBe(
      `Change 1: ${BASE.name} has no rule "socks". Its rules are: ${BASE.rules.map((rule) => rule.id).join(', ')}.`,
    )
  })
})

describe('the shape of an overlay', () => {
  const change = { id: 'fit-test', limit: 'P6M', reason }

  it.each([
    ['a change with its reason', { changes: [change] }, true],
    ['a change without a reason', { changes: [{ id: 'fit-test', limit: 'P6M' }] }, false],
    ['an empty reason', { changes: [{ ...change, reason: ' ' }] }, false],
    ['something not asked for', { changes: [{ ...change, because: 'x' }] }, false],
    ['a limit that is no duration', { changes: [{ ...change, limit: '6 months' }] }, false],
    ['a consequence that is fit', { changes: [{ ...change, past: 'ready' }] }, false],
    ['a construction that is none', { changes: [{ ...change, limit: { paper: 'P1Y' } }] }, false],
    ['no changes at all', {}, true],
  ])('%s: %s', (_name, given, answer) => expect(accepts(given)).toBe(answer))

  it('takes whole percents only, so that no pressure is judged by a rounded limit', () => {
    expect([0.9, 0.29, 0.57, 0.01, 0.99].map(takesPressure)).toEqual([true, true, true, true, true])
    expect([0.904, 0.905, 0, 1, 90].map(takesPressure)).toEqual([false, false, false, false, false])
  })
})

describe('a limit in words', () => {
  it('names each construction it is for', () => {
    expect(sayLimit(undefined)).toBe('none')
    expect(sayLimit('P6M')).toBe('6 months')
    expect(sayLimit({ steel: 'P5Y', glass: 'P3Y' })).toBe('steel 5 years, glass 3 years')
  })
})
