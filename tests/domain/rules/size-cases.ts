// The tables of the wearer's size: exact, larger within what is allowed, larger, smaller, unreadable, unknown.
import type { Kind, Measure } from '../../../src/domain/kinds.ts'
import { gear, verdictOf, wearer, type Case } from './judging.ts'

const sized = (
  rule: string,
  kind: Kind,
  measure: Measure,
  wanted: string | undefined,
  rows: [side: Case['side'], title: string, size: string | undefined, state: Case['state']][],
): Case[] =>
  rows.map(([side, title, size, state]) => ({
    rule,
    side,
    title: `${title}: ${size ?? 'none'} for ${wanted ?? 'none'}`,
    state,
    matter: 'safety',
    judge: () =>
      verdictOf(
        rule,
        gear(kind, size === undefined ? {} : { size }),
        { today: '2026-11-24' },
        wearer([], wanted === undefined ? {} : { sizes: { [measure]: wanted } }),
      ),
  }))

// How much larger may be worn is common practice, not a published figure.
export const SIZE_CASES: Case[] = [
  ...(['coat-size', 'trouser-size'] as const).flatMap((rule) => {
    const [kind, measure] =
      rule === 'coat-size' ? (['coat-shell', 'coat'] as const) : (['trouser-shell', 'trousers'] as const)
    return [
      ...sized(rule, kind, measure, '44x32', [
        ['within', 'exact', '44x32', 'ready'],
        ['within', 'two inches larger', '46x34', 'ready'],
        ['past', 'three inches larger', '47x32', 'out-of-service'],
        ['past', 'three inches longer', '44x35', 'out-of-service'],
        ['past', 'one inch smaller', '43x32', 'out-of-service'],
        ['past', 'larger and shorter', '46x31', 'out-of-service'],
        ['past', 'without its length', '44', 'out-of-service'],
        ['past', 'not readable', 'large', 'out-of-service'],
        ['nothing', 'no size on the label', undefined, 'unproven'],
      ]),
      ...sized(rule, kind, measure, undefined, [
        ['nothing', 'no measure of the wearer', '44x32', 'unproven'],
      ]),
    ]
  }),
  ...sized('glove-size', 'gloves', 'gloves', '76W', [
    ['within', 'exact', '76W', 'ready'],
    ['past', 'one millimetre larger', '77W', 'out-of-service'],
    ['past', 'one millimetre smaller', '75W', 'out-of-service'],
    ['past', 'narrow for wide', '76N', 'out-of-service'],
    ['past', 'lettered for numbered', 'L', 'out-of-service'],
    ['nothing', 'no size on the label', undefined, 'unproven'],
  ]),
  ...sized('glove-size', 'gloves', 'gloves', 'XL', [
    ['within', 'lettered, exact', 'xl', 'ready'],
    ['past', 'lettered, larger', 'XXL', 'out-of-service'],
  ]),
  ...sized('boot-size', 'boots', 'boots', '11D', [
    ['within', 'exact', '11D', 'ready'],
    ['within', 'half a size larger', '11.5D', 'ready'],
    ['past', 'a whole size larger', '12D', 'out-of-service'],
    ['past', 'half a size smaller', '10.5D', 'out-of-service'],
    ['past', 'another width', '11E', 'out-of-service'],
    ['nothing', 'no size on the label', undefined, 'unproven'],
  ]),
]
