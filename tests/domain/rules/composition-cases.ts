// The tables of the rules about what belongs together: presence and one assembly.
import type { Kind } from '../../../src/domain/kinds.ts'
import type { Custody, Element } from '../../../src/domain/state.ts'
import { gear, noon, presenceOf, verdictOf, wearer, type Case } from './judging.ts'

const since = { seq: 1, at: noon('2026-11-20'), by: 'M-104' }
const PLACES: [side: Case['side'], title: string, custody: Custody, state: Case['state']][] = [
  ['within', 'issued', { where: 'issued' }, 'ready'],
  ['within', 'on the rig', { where: 'rig' }, 'ready'],
  [
    'past',
    'away for cleaning',
    { where: 'away', to: 'the wash', for: 'advanced-cleaning', since },
    'missing',
  ],
  ['past', 'held as evidence', { where: 'held', reason: 'injury', since }, 'missing'],
  ['past', 'retired', { where: 'retired', reason: 'worn out', disposal: 'cut up', since }, 'missing'],
]
const MISSING: Case[] = [
  ...PLACES.map(([side, title, custody, state]): Case => ({
    rule: 'element-missing',
    side,
    title,
    state,
    matter: 'safety',
    judge: () => presenceOf('element-missing', 'boots', gear('boots', { custody })),
  })),
  {
    rule: 'element-missing',
    side: 'nothing',
    title: 'none on the books',
    state: 'missing',
    matter: 'safety',
    judge: () => presenceOf('element-missing', 'boots', undefined),
  },
]

const device = (
  side: Case['side'],
  title: string,
  edition: string | undefined,
  state: Case['state'],
  worn?: Element,
): Case => ({
  rule: 'drag-rescue-device-by-edition',
  side,
  title,
  state,
  judge: () =>
    presenceOf(
      'drag-rescue-device-by-edition',
      'drag-rescue-device',
      worn,
      wearer([gear('coat-shell', edition === undefined ? {} : { edition })]),
    ),
})
const awayDevice = gear('drag-rescue-device', {
  custody: { where: 'away', to: 'the mender', for: 'repair', since },
})
// Required in structural coats since the 2007 edition of NFPA 1971: the fire service press.
const DEVICE: Case[] = [
  device('within', 'none, coat of 2000', '1971-2000', 'ready'),
  device('past', 'none, coat of 2007', '1971-2007', 'missing'),
  device('past', 'none, coat of 2018', 'NFPA 1971, 2018 edition', 'missing'),
  device('past', 'none, coat of the 2025 standard', '1970-2025', 'missing'),
  device(
    'past',
    'none, two years on the label: the one that asks for the most',
    '2018, NFPA 1971-2000',
    'missing',
  ),
  device('within', 'there, coat of 2018', '1971-2018', 'ready', gear('drag-rescue-device')),
  device('past', 'away, coat of 2018', '1971-2018', 'missing', awayDevice),
  device('within', 'away, coat of 2000', '1971-2000', 'ready', awayDevice),
  device('nothing', 'none, edition unknown', undefined, 'unproven'),
  device('nothing', 'none, a standard named without its edition', 'NFPA 1971', 'unproven'),
  device('nothing', 'none, the newer standard named without its edition', 'NFPA 1970', 'unproven'),
  {
    rule: 'drag-rescue-device-by-edition',
    side: 'nothing',
    title: 'no coat to ask of',
    state: 'none',
    judge: () => presenceOf('drag-rescue-device-by-edition', 'drag-rescue-device', undefined),
  },
]

type Layer = Pick<Partial<Element>, 'assembly' | 'size'>
const MATCHES: [side: Case['side'], title: string, inner: Layer, outer: Layer, state: Case['state']][] = [
  [
    'within',
    'one assembly, one size',
    { assembly: 'A-7', size: '44x32' },
    { assembly: 'A-7', size: '44x32' },
    'ready',
  ],
  [
    'within',
    'size written otherwise',
    { assembly: 'A-7', size: '44 X 32' },
    { assembly: 'A-7', size: '44x32' },
    'ready',
  ],
  [
    'past',
    'another assembly',
    { assembly: 'A-8', size: '44x32' },
    { assembly: 'A-7', size: '44x32' },
    'out-of-service',
  ],
  [
    'past',
    'smaller',
    { assembly: 'A-7', size: '42x32' },
    { assembly: 'A-7', size: '44x32' },
    'out-of-service',
  ],
  [
    'past',
    'larger',
    { assembly: 'A-7', size: '46x32' },
    { assembly: 'A-7', size: '44x32' },
    'out-of-service',
  ],
  ['nothing', 'its assembly unknown', { size: '44x32' }, { assembly: 'A-7', size: '44x32' }, 'unproven'],
  [
    'nothing',
    "the shell's assembly unknown",
    { assembly: 'A-7', size: '44x32' },
    { size: '44x32' },
    'unproven',
  ],
  ['nothing', 'its size unknown', { assembly: 'A-7' }, { assembly: 'A-7', size: '44x32' }, 'unproven'],
  ['nothing', 'nothing known of either', {}, {}, 'unproven'],
  [
    'past',
    'unknown assembly hides no wrong size',
    { size: '46x32' },
    { assembly: 'A-7', size: '44x32' },
    'out-of-service',
  ],
]
const LAYERS: [rule: string, inner: Kind, outer: Kind][] = [
  ['one-assembly', 'coat-liner', 'coat-shell'],
  ['one-assembly', 'drag-rescue-device', 'coat-shell'],
  ['one-trouser-assembly', 'trouser-liner', 'trouser-shell'],
]
const ASSEMBLY = LAYERS.flatMap(([rule, inner, outer]) => [
  ...MATCHES.map(([side, title, mine, theirs, state]): Case => ({
    rule,
    side,
    title: `${inner}: ${title}`,
    state,
    matter: 'safety',
    judge: () => verdictOf(rule, gear(inner, mine), { today: '2026-11-24' }, wearer([gear(outer, theirs)])),
  })),
  {
    rule,
    side: 'nothing' as const,
    title: `${inner}: no shell to match, which is another rule's finding`,
    state: 'none' as const,
    judge: () => verdictOf(rule, gear(inner), { today: '2026-11-24' }, wearer()),
  },
])

export const COMPOSITION_CASES: Case[] = [...MISSING, ...DEVICE, ...ASSEMBLY]
