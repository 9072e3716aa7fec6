// The invented station that the domain's tests start from, step by step; it must hold no real person, brand or place.
import type { RigFacts } from '../../src/domain/gear.ts'
import type { Told } from './given.ts'

export const engine6: RigFacts = {
  id: 'E6',
  name: 'Engine 6',
  minimum: 2,
  seats: [
    { id: 'E6-1', position: 'Officer', critical: true },
    { id: 'E6-2', position: 'Driver' },
    { id: 'E6-3', position: 'Nozzle' },
  ],
}
export const rig: Told = { do: 'add-rig', rig: engine6 }

const officer: Told = {
  do: 'add-member',
  member: {
    id: 'M-104',
    name: 'A. Varga',
    rank: 'Captain',
    platoon: 'B',
    sizes: { coat: '44x32', gloves: '76W' },
  },
}
const driver: Told = { do: 'add-member', member: { id: 'M-105', name: 'B. Okoro', platoon: 'B' } }
const other: Told = { do: 'add-member', member: { id: 'M-207', name: 'C. Lindqvist', platoon: 'C' } }
export const members: Told[] = [officer, driver, other]

type Label = Partial<Extract<Told, { do: 'add-element' }>['element']>
export const coat = (id: string, label: Label = {}): Told => ({
  do: 'add-element',
  element: { id, kind: 'coat-shell', size: '44x32', made: '2019-03', ...label },
})
export const hood = (id: string): Told => coat(id, { kind: 'hood', size: 'M' })
export const cylinder = (id: string): Told => ({
  do: 'add-element',
  element: { id, kind: 'cylinder', made: '2020-05', ratedPsi: 4500, construction: 'carbon' },
})

export const issue = (element: string, to: string): Told => ({
  do: 'issue',
  element,
  to,
  on: '2020-06-01',
})

/** A rig of three, members of platoons B and C, and gear: C-1041 and H-5 are M-104's, Y-31 the officer's seat's. */
export const house: Told[] = [
  rig,
  ...members,
  coat('C-1041'),
  coat('C-1900'),
  coat('C-1901'),
  hood('H-5'),
  hood('H-6'),
  cylinder('Y-31'),
  cylinder('Y-32'),
  issue('C-1041', 'M-104'),
  issue('H-5', 'M-104'),
  issue('Y-31', 'E6-1'),
]

export const tourOpen: Told = {
  do: 'open-tour',
  tour: '2026-11-24-B',
  platoon: 'B',
  officer: 'M-104',
  on: '2026-11-24',
}
export const seated = (member = 'M-104', seat = 'E6-1'): Told => ({ do: 'seat-member', seat, member })

/** The house with its tour open and the officer in the officer's riding position. */
export const crew: Told[] = [...house, tourOpen, seated()]

export const tagged = (element: string, reason = 'torn seam'): Told => ({
  do: 'tag',
  element,
  reason,
  matter: 'safety',
})
export const sentAway = (...elements: string[]): Told => ({
  do: 'send-away',
  elements,
  to: 'North Wash',
  for: 'advanced-cleaning',
})
export const held = (element: string): Told => ({ do: 'hold', element, reason: 'injury on 22 Nov' })
export const retired = (element: string): Told => ({
  do: 'retire',
  element,
  reason: 'ten years old',
  disposal: 'cut up',
})
export const swap = (seat: string, spare: string, out?: string): Told => ({
  do: 'swap',
  seat,
  in: spare,
  ...(out !== undefined && { out }),
})
export const cared = (on: string, result: 'serviceable' | 'unserviceable' = 'serviceable'): Told => ({
  do: 'record-care',
  element: 'C-1041',
  care: 'advanced-cleaning',
  on,
  result,
})
export const amended = (seq: number, changes: Record<string, unknown>): Told => ({
  do: 'amend',
  seq,
  why: 'misread',
  with: changes,
})
