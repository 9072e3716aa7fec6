// An invented engine of two whose gear is whole and in date on whatever day the tests run; tests take away from it.
import { join } from 'node:path'
import { bayboard, newPlace, recorded, type Told } from './run.ts'

/** Seven hours behind UTC all the year round. */
export const ZONE = 'America/Phoenix'
const DAY_MS = 86_400_000
const zoned = (ms: number): string => new Date(ms - 7 * 3_600_000).toISOString().slice(0, -1)

/** The instant so long ago, written in the station's zone. */
export const instant = (agoMs = 0): string => `${zoned(Date.now() - agoMs)}-07:00`
export const daysAgo = (days: number): string => zoned(Date.now() - days * DAY_MS).slice(0, 10)
/** The month of manufacture of all of it, two years ago. */
export const MADE = daysAgo(731).slice(0, 7)
export const TOUR = `${daysAgo(0)}-B`

const SIZES = { coat: '44x32', trousers: '38x30', gloves: '76W', boots: '11D', facepiece: 'M' }
export const MASK = { model: 'Clear Two', size: 'M' }
const GARMENTS: readonly [kind: string, letter: string, label: object][] = [
  ['coat-shell', 'C', { size: '44x32', edition: '1971-2018' }],
  ['coat-liner', 'L', { size: '44x32' }],
  ['drag-rescue-device', 'D', { size: '44x32' }],
  ['trouser-shell', 'T', { size: '38x30' }],
  ['trouser-liner', 'U', { size: '38x30' }],
  ['helmet', 'H', {}],
  ['hood', 'K', {}],
  ['gloves', 'G', { size: '76W' }],
  ['boots', 'B', { size: '11D' }],
]

const cared = (element: string, care: string): Told => ({
  do: 'record-care',
  by: 'M-104',
  element,
  care,
  on: daysAgo(30),
  result: 'serviceable',
})
const added = (id: string, kind: string, label: object): Told => ({
  do: 'add-element',
  by: 'setup',
  element: { id, kind, maker: 'Invented Works', serial: `S-${id}`, ...label },
})
const issued = (element: string, to: string): Told => ({
  do: 'issue',
  by: 'setup',
  element,
  to,
  on: daysAgo(60),
})

/** Every garment of one set on the rack, cared for a month ago. */
const garments = (set: string): Told[] =>
  GARMENTS.flatMap(([kind, letter, label]) => {
    const id = `${letter}-${set}`
    const cares = ['advanced-inspection', 'advanced-cleaning']
    if (kind.endsWith('liner')) cares.push('complete-liner-inspection')
    return [
      added(id, kind, { made: MADE, assembly: `A-${set}`, ...label }),
      ...cares.map((care) => cared(id, care)),
    ]
  })

const ensemble = (member: string, seat: string, set: string): Told[] => [
  ...garments(set),
  added(`F-${set}`, 'facepiece', MASK),
  added(`P-${set}`, 'air-pack', {}),
  cared(`P-${set}`, 'flow-test'),
  added(`Y-${set}`, 'cylinder', { made: MADE, ratedPsi: 4500, construction: 'carbon' }),
  ...[...GARMENTS.map(([, letter]) => letter), 'F'].map((letter) => issued(`${letter}-${set}`, member)),
  issued(`P-${set}`, seat),
  issued(`Y-${set}`, seat),
]

export const fitTested = (member: string, days = 30): Told => ({
  do: 'record-fit-test',
  by: 'M-104',
  member,
  facepiece: MASK,
  on: daysAgo(days),
  result: 'pass',
})
const joined = (id: string, name: string, platoon: string): Told => ({
  do: 'add-member',
  by: 'setup',
  member: { id, name, platoon, sizes: SIZES },
})

/** Two riding positions, two members of platoon B with their ensembles, one of platoon C, a spare set on the rack. */
export const HOUSE: readonly Told[] = [
  joined('M-104', 'Ada Varga', 'B'),
  joined('M-105', 'Bo Okoro', 'B'),
  joined('M-207', 'Cai Lindqvist', 'C'),
  {
    do: 'add-rig',
    by: 'setup',
    rig: {
      id: 'E6',
      name: 'Engine 6',
      minimum: 2,
      seats: [
        { id: 'E6-1', position: 'Officer', critical: true },
        { id: 'E6-2', position: 'Driver' },
      ],
    },
  },
  ...ensemble('M-104', 'E6-1', '1'),
  ...ensemble('M-105', 'E6-2', '2'),
  ...garments('9'),
  fitTested('M-104'),
  fitTested('M-105'),
]

const M104 = { by: 'M-104' }
export const OPEN: Told = {
  do: 'open-tour',
  ...M104,
  tour: TOUR,
  platoon: 'B',
  officer: 'M-104',
  on: daysAgo(0),
}
export const seats = (member: string, seat: string): Told => ({ do: 'seat-member', ...M104, seat, member })
export const reads = (element: string, psi = 4500): Told => ({ do: 'read-pressure', ...M104, element, psi })
export const answers = (seat: string, findings?: object[]): Told => ({
  do: 'answer',
  ...M104,
  seat,
  ...(findings && { findings }),
})
export const ON_DUTY: readonly Told[] = [
  OPEN,
  seats('M-104', 'E6-1'),
  seats('M-105', 'E6-2'),
  reads('Y-1'),
  reads('Y-2'),
]

/** An empty station in a folder of its own. */
export function emptyStation(): string {
  const station = join(newPlace(), 'station')
  const made = bayboard(['init', '--name', 'Station 6', '--time-zone', ZONE], { station })
  if (made.status !== 0) throw new Error(made.stderr)
  return station
}

export function stationWith(...commands: readonly Told[]): string {
  const station = emptyStation()
  recorded(station, commands)
  return station
}
/** Both seats filled and fit, nobody called yet. */
export const fitStation = (...more: readonly Told[]): string => stationWith(...HOUSE, ...ON_DUTY, ...more)

const EIGHT = ['1', '2', '3', '4', '5', '6', '7', '8']
/** A rig of eight, everybody seated and fit, the cylinders read or still to be read. */
export const eightSeats = ({ isRead }: { isRead: boolean }): string =>
  stationWith(
    ...EIGHT.map((set) => joined(`M-10${set}`, `Ada Varga ${set}`, 'B')),
    {
      do: 'add-rig',
      by: 'setup',
      rig: {
        id: 'E8',
        name: 'Engine 8',
        minimum: 4,
        seats: EIGHT.map((set) => ({ id: `E8-${set}`, position: `Position ${set}` })),
      },
    },
    ...EIGHT.flatMap((set) => [...ensemble(`M-10${set}`, `E8-${set}`, set), fitTested(`M-10${set}`)]),
    OPEN,
    ...EIGHT.flatMap((set) => [seats(`M-10${set}`, `E8-${set}`), ...(isRead ? [reads(`Y-${set}`)] : [])]),
  )
