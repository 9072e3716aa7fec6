// An invented engine house as a department's own spreadsheets describe it, and the care of its gear as commands.
import { asLines, bayboard, fileWith, type Ran, type Told } from '../cli/run.ts'
import { daysAgo, emptyStation, fitTested, MADE, MASK } from '../cli/two-seats.ts'

const csv = (...rows: (readonly string[])[]): string => rows.map((row) => `${row.join(',')}\r\n`).join('')

export const RIG: Told = {
  do: 'add-rig',
  by: 'setup',
  rig: {
    id: 'E6',
    name: 'Engine 6',
    minimum: 2,
    seats: [
      { id: 'E6-1', position: 'Officer', critical: true },
      { id: 'E6-2', position: 'Driver' },
      { id: 'E6-3', position: 'Nozzle' },
    ],
  },
}

export const MEMBERS_CSV = csv(
  ['Badge', 'Name', 'Rank', 'Shift', 'Coat', 'Pants', 'Gloves', 'Boots', 'Mask'],
  ['M-104', 'Ada Varga', 'Captain', 'B', '44x32', '38x30', '76W', '11D', 'M'],
  ['M-105', 'Bo Okoro', 'Firefighter', 'B', '44x32', '38x30', '76W', '11D', 'M'],
  ['M-207', 'Cai Lindqvist', 'Captain', 'C', '46x32', '40x30', '76W', '10D', 'M'],
)

const HEADINGS = [
  'Asset #',
  'Type',
  'Mfr',
  'Model',
  'Serial',
  'Size',
  'Mfg date',
  'NFPA',
  'Set',
  'Assigned to',
  'Issue date',
  'Rated pressure',
  'Construction',
]
const WORN: readonly [type: string, letter: string, size: string][] = [
  ['Coat', 'C', '44x32'],
  ['Coat liner', 'L', '44x32'],
  ['DRD', 'D', '44x32'],
  ['Pants', 'T', '38x30'],
  ['Pant liner', 'U', '38x30'],
  ['Helmet', 'H', ''],
  ['Hood', 'K', ''],
  ['Gloves', 'G', '76W'],
  ['Boots', 'B', '11D'],
]
const COAT = WORN.slice(0, 3)

const row = ([type, letter, size]: (typeof WORN)[number], set: string, to = ''): string[] => [
  `${letter}-${set}`,
  type,
  'Invented Works',
  '',
  `S-${letter}-${set}`,
  size,
  MADE,
  '1971-2018',
  `A-${set}`,
  to,
  to && daysAgo(60),
  '',
  '',
]
const breathing = (set: string, member: string, seat: string): string[][] => [
  [`F-${set}`, 'Mask', '', MASK.model, '', MASK.size, '', '', '', member, daysAgo(60), '', ''],
  [`P-${set}`, 'Air pack', '', '', '', '', '', '', '', seat, daysAgo(60), '', ''],
  [`Y-${set}`, 'Bottle', '', '', '', '', MADE, '', '', seat, daysAgo(60), '4500', 'carbon'],
]
const set = (name: string, member: string, seat: string): string[][] => [
  ...WORN.map((each) => row(each, name, member)),
  ...breathing(name, member, seat),
]

/** Two whole ensembles; on the rack a whole coat of its own assembly, and one liner that belongs to another coat. */
export const GEAR_CSV = csv(
  HEADINGS,
  ...set('1', 'M-104', 'E6-1'),
  ...set('2', 'M-105', 'E6-2'),
  ...COAT.map((each) => row(each, '9')),
  row(WORN[1]!, '8'),
)

const cared = (element: string, care: string): Told => ({
  do: 'record-care',
  by: 'M-104',
  element,
  care,
  on: daysAgo(30),
  result: 'serviceable',
  who: 'North Wash (invented)',
})
const caresOf = ([, letter]: (typeof WORN)[number], set: string): Told[] =>
  [
    'advanced-inspection',
    'advanced-cleaning',
    ...('LU'.includes(letter) ? ['complete-liner-inspection'] : []),
  ].map((care) => cared(`${letter}-${set}`, care))

/** A month ago everything was inspected, cleaned and tested. */
export const CARE_JSONL = asLines([
  ...['1', '2'].flatMap((set) => [
    ...WORN.flatMap((each) => caresOf(each, set)),
    cared(`P-${set}`, 'flow-test'),
  ]),
  ...COAT.flatMap((each) => caresOf(each, '9')),
  ...caresOf(WORN[1]!, '8'),
  fitTested('M-104'),
  fitTested('M-105'),
])

const done = ({ status, stdout, stderr }: Ran): void => {
  if (status !== 0) throw new Error(stderr || stdout)
}

/** A station of its own with all of it: the rig, the two files and the care. */
export function stationFromFiles(): string {
  const station = emptyStation()
  done(bayboard(['record'], { station, input: asLines([RIG]) }))
  for (const text of [MEMBERS_CSV, GEAR_CSV])
    done(bayboard(['import', fileWith(text, 'file.csv')], { station }))
  done(bayboard(['record'], { station, input: CARE_JSONL }))
  return station
}
