// An invented engine whose crew is fit to ride on 24 November 2026, whole and in date; tests take away from it.
import type { Kind } from '../../src/domain/kinds.ts'
import { stateOf, type Steps, type Told } from './given.ts'

const GARMENTS: [kind: Kind, prefix: string, label: object][] = [
  ['coat-shell', 'CS', { size: '44x32', edition: '1971-2018' }],
  ['coat-liner', 'CL', { size: '44x32' }],
  ['drag-rescue-device', 'DR', { size: '44x32' }],
  ['trouser-shell', 'TS', { size: '38x30' }],
  ['trouser-liner', 'TL', { size: '38x30' }],
  ['helmet', 'HE', {}],
  ['hood', 'HO', {}],
  ['gloves', 'GL', { size: '76W' }],
  ['boots', 'BO', { size: '11D' }],
]
export const MASK = { model: 'Clear Two', size: 'M' }

const care = (element: string, care: Extract<Told, { do: 'record-care' }>['care'], on: string): Told => ({
  do: 'record-care',
  element,
  care,
  on,
  result: 'serviceable',
})

/** One garment on the rack, made in 2024, inspected and cleaned on 1 September 2026, of the assembly `set`. */
export function garment(kind: Kind, set: string, label: object = {}): Told[] {
  const [, prefix, usual] = GARMENTS.find(([each]) => each === kind)!
  const id = `${prefix}-${set}`
  return [
    {
      do: 'add-element',
      element: {
        id,
        kind,
        made: '2024-05',
        inService: '2025-01-10',
        assembly: `A-${set}`,
        ...usual,
        ...label,
      },
    },
    care(id, 'advanced-inspection', '2026-09-01'),
    care(id, 'advanced-cleaning', '2026-09-01'),
  ]
}

/** A whole coat on the rack: shell, liner and drag rescue device of one assembly. */
export const coat = (set: string, label: object = {}): Told[] =>
  (['coat-shell', 'coat-liner', 'drag-rescue-device'] as const).flatMap((kind) => garment(kind, set, label))

const issue = (element: string, to: string): Told => ({ do: 'issue', element, to, on: '2025-01-10' })

/** Everything that `member` wears, named by `set`. */
export const kit = (member: string, set: string): Told[] => [
  ...GARMENTS.flatMap(([kind, prefix]) => [...garment(kind, set), issue(`${prefix}-${set}`, member)]),
  { do: 'add-element', element: { id: `FP-${set}`, kind: 'facepiece', ...MASK } },
  issue(`FP-${set}`, member),
  { do: 'record-fit-test', member, facepiece: MASK, on: '2026-09-01', result: 'pass' },
]

export const airPack = (set: string): Told[] => [
  { do: 'add-element', element: { id: `AP-${set}`, kind: 'air-pack' } },
  care(`AP-${set}`, 'flow-test', '2026-09-01'),
]
export const cylinder = (set: string): Told[] => [
  {
    do: 'add-element',
    element: { id: `CY-${set}`, kind: 'cylinder', made: '2024-05', ratedPsi: 4500, construction: 'carbon' },
  },
]
export const breathing = (seat: string, set: string): Told[] => [
  ...airPack(set),
  issue(`AP-${set}`, seat),
  ...cylinder(set),
  issue(`CY-${set}`, seat),
]

const member = (id: string, name: string): Told => ({
  do: 'add-member',
  member: {
    id,
    name,
    platoon: 'B',
    sizes: { coat: '44x32', trousers: '38x30', gloves: '76W', boots: '11D' },
  },
})

export const reads = (set: string, psi = 4500, at?: string): Told => ({
  do: 'read-pressure',
  element: `CY-${set}`,
  psi,
  ...(at !== undefined && { at }),
})
export const answers = (seat: string): Told => ({ do: 'answer', seat })

/** Before the tour: three riding positions, gear for the officer (set 1) and the driver (set 2). */
export const HOUSE: Told[] = [
  member('M-104', 'A. Varga'),
  member('M-105', 'B. Okoro'),
  {
    do: 'add-rig',
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
  },
  ...kit('M-104', '1'),
  ...kit('M-105', '2'),
  ...breathing('E6-1', '1'),
  ...breathing('E6-2', '2'),
]

/** The tour is open, the officer and the driver are seated and their cylinders are full; nobody has answered yet. */
export const FIT: Told[] = [
  ...HOUSE,
  { do: 'open-tour', tour: '2026-11-24-B', platoon: 'B', officer: 'M-104', on: '2026-11-24' },
  { do: 'seat-member', seat: 'E6-1', member: 'M-104' },
  { do: 'seat-member', seat: 'E6-2', member: 'M-105' },
  reads('1'),
  reads('2'),
]

export const fitCrew = (...steps: Steps) => stateOf(...FIT, ...steps)

export const tags = (element: string, matter: 'safety' | 'compliance' = 'safety'): Told => ({
  do: 'tag',
  element,
  reason: 'torn seam',
  matter,
})
export const sendsAway = (element: string): Told => ({
  do: 'send-away',
  elements: [element],
  to: 'North Wash',
  for: 'advanced-cleaning',
})
