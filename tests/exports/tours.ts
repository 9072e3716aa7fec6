// Two invented tours for the exports' tests: a small one and one in which everything happens; every name in them is made up.
import { isHeldBySeat, type Kind } from '../../src/domain/kinds.ts'
import { station, type Recorder } from './recorder.ts'

const made = { made: '2024-05', edition: '1971-2018' }
const coat = { ...made, size: '44x32', assembly: 'A-1' }
const trousers = { ...made, size: '38x30', assembly: 'A-2' }
const breathing = { made: '2024-05', model: 'Model-1' }
const ENSEMBLE: [id: string, kind: Kind, label: object][] = [
  ['C-1', 'coat-shell', coat],
  ['L-1', 'coat-liner', coat],
  ['D-1', 'drag-rescue-device', coat],
  ['T-1', 'trouser-shell', trousers],
  ['R-1', 'trouser-liner', trousers],
  ['H-1', 'helmet', made],
  ['N-1', 'hood', made],
  ['G-1', 'gloves', { ...made, size: '76W' }],
  ['B-1', 'boots', { ...made, size: '11D' }],
  ['F-1', 'facepiece', { ...breathing, size: 'M' }],
  ['P-1', 'air-pack', breathing],
  ['Y-1', 'cylinder', { made: '2024-05', ratedPsi: 4500, construction: 'carbon' }],
]

/** A whole ensemble, in date and issued. */
function equip(log: Recorder, member: string, seat: string): void {
  for (const [id, kind, label] of ENSEMBLE) {
    log.record('01 09:00', 'setup', { do: 'add-element', element: { id, kind, ...label } })
    const to = isHeldBySeat(kind) ? seat : member
    log.record('01 09:00', 'setup', { do: 'issue', element: id, to, on: '2026-10-01' })
  }
  const facepiece = { model: 'Model-1', size: 'M' }
  const test = { do: 'record-fit-test', member, facepiece, on: '2026-10-01', result: 'pass' }
  log.record('01 09:00', member, test)
}

/** A rig of two, three members of two platoons, one ensemble and one spare pair of boots. */
export function house(options: Parameters<typeof station>[0] = {}): Recorder {
  const log = station(options)
  const setUp = (command: Record<string, unknown>) => log.record('01 08:30', 'setup', command)
  setUp({
    do: 'add-rig',
    rig: {
      id: 'E6',
      name: 'Engine 6',
      minimum: 1,
      seats: [
        { id: 'E6-1', position: 'Officer', critical: true },
        { id: 'E6-2', position: 'Driver' },
      ],
    },
  })
  const named = [
    ['M-104', 'A. Varga', 'B'],
    ['M-105', 'B. Okoro', 'B'],
    ['M-207', 'C. Lindqvist', 'C'],
  ]
  const sizes = { coat: '44x32', trousers: '38x30', gloves: '76W', boots: '11D', facepiece: 'M' }
  for (const [id, name, platoon] of named) {
    setUp({ do: 'add-member', member: { id, name, platoon, sizes } })
  }
  setUp({ do: 'add-element', element: { id: 'S-900', kind: 'boots', size: '11D', ...made } })
  equip(log, 'M-104', 'E6-1')
  return log
}

/** Opened, answered with one finding, handed over with the boots still tagged. */
export function smallTour(options: Parameters<typeof station>[0] = {}): Recorder {
  const log = house(options)
  const tour = { tour: '2026-11-24-B', platoon: 'B', officer: 'M-104', on: '2026-11-24' }
  log.record('24 07:00', 'M-104', { do: 'open-tour', ...tour })
  log.record('24 07:01', 'M-104', { do: 'seat-member', seat: 'E6-1', member: 'M-104' })
  log.record('24 07:05', 'M-104', { do: 'read-pressure', element: 'Y-1', psi: 4400 })
  const finding = { element: 'B-1', point: 'sole separation', matter: 'safety' }
  log.record('24 07:10', 'M-104', { do: 'answer', seat: 'E6-1', findings: [finding] })
  log.record('25 07:00', 'M-104', { do: 'hand-over', to: 'M-207' })
  return log
}

export const OVERLAY = {
  name: 'Larch Hill',
  changes: [{ id: 'advanced-cleaning-interval', limit: 'P8M', reason: 'one washer for two stations' }],
  add: [],
}

/** A tour that holds every event a tour can hold, closed by its hand-over. */
export function fullTour(options: Parameters<typeof station>[0] = {}): Recorder {
  const log = house(options)
  const act = (when: string, command: Record<string, unknown>) => log.record(when, 'M-104', command)
  act('23 20:00', { do: 'seat-member', seat: 'E6-2', member: 'M-207' })
  const tour = { tour: '2026-11-24-B', platoon: 'B', officer: 'M-104', on: '2026-11-24' }
  act('24 06:30', { do: 'seat-member', seat: 'E6-1', member: 'M-104' })
  act('24 06:40', { do: 'tag', element: 'H-1', reason: 'cracked shell', matter: 'safety' })
  act('24 07:00', { do: 'open-tour', ...tour })
  act('24 07:01', { do: 'acknowledge', item: 'tag-H-1' })
  act('24 07:02', { do: 'seat-member', seat: 'E6-2', member: 'M-105' })
  act('24 07:05', { do: 'read-pressure', element: 'Y-1', psi: 3900 })
  const finding = { element: 'B-1', point: 'sole separation', matter: 'safety' }
  act('24 07:10', { do: 'answer', seat: 'E6-1', findings: [finding] })
  act('24 07:11', { do: 'answer', seat: 'E6-2' })
  act('24 07:15', { do: 'swap', seat: 'E6-1', out: 'B-1', in: 'S-900', reason: 'sole separation' })
  const smoke = act('24 09:00', {
    do: 'record-exposure',
    exposure: 'products-of-combustion',
    seats: ['E6-1'],
    incident: '26-0412',
  })
  act('24 09:30', {
    do: 'amend',
    seq: smoke.seq,
    why: 'the number was misheard',
    with: { incident: '26-0421' },
  })
  const note = act('24 09:40', { do: 'note', text: 'Hydrant out at Mill Lane.' })
  act('24 09:45', { do: 'amend', seq: note.seq, why: 'another street', with: { withdrawn: true } })
  act('24 10:00', {
    do: 'record-care',
    element: 'B-1',
    care: 'repair',
    on: '2026-11-24',
    result: 'serviceable',
    who: 'Brook Works',
  })
  act('24 10:05', { do: 'lift-tag', element: 'B-1', basis: 'sole glued and pressed' })
  act('24 10:06', { do: 'swap-back', seat: 'E6-1', kind: 'boots' })
  act('24 10:10', {
    do: 'record-care',
    element: 'F-1',
    care: 'function-check',
    on: '2026-11-24',
    result: 'unserviceable',
  })
  const mask = { model: 'Model-1', size: 'M' }
  act('24 10:20', {
    do: 'record-fit-test',
    member: 'M-104',
    facepiece: mask,
    on: '2026-11-20',
    result: 'pass',
  })
  act('24 11:00', { do: 'send-away', elements: ['C-1', 'L-1'], to: 'North Wash', for: 'advanced-cleaning' })
  act('24 12:00', { do: 'receive-back', elements: ['L-1'] })
  act('24 12:10', { do: 'hold', element: 'N-1', reason: 'injury on 22 Nov' })
  act('24 12:20', { do: 'tag', element: 'S-900', reason: 'heel worn through', matter: 'compliance' })
  act('24 12:30', { do: 'retire', element: 'S-900', reason: 'heel worn through', disposal: 'cut up' })
  act('24 13:00', { do: 'add-element', element: { id: 'S-901', kind: 'boots' } })
  act('24 13:01', { do: 'issue', element: 'S-901', to: 'M-105', on: '2026-11-24' })
  act('24 13:02', { do: 'return-to-rack', element: 'S-901' })
  act('24 13:03', { do: 'add-member', member: { id: 'M-300', name: 'D. Achterberg', platoon: 'C' } })
  act('24 13:04', {
    do: 'add-rig',
    rig: { id: 'T1', name: 'Tanker 1', minimum: 1, seats: [{ id: 'T1-1', position: 'Driver' }] },
  })
  act('24 13:05', {
    do: 'import-gear',
    file: 'rack.csv',
    members: [],
    elements: [{ id: 'S-902', kind: 'hood' }],
  })
  act('24 13:07', {
    do: 'import-records',
    file: 'past.csv',
    members: [],
    elements: [],
    cares: [{ element: 'S-902', care: 'advanced-cleaning', on: '2026-03-02', result: 'serviceable' }],
    fitTests: [],
    changes: [{ id: 'S-902', was: { size: null }, with: { size: 'L' } }],
  })
  act('24 13:10', { do: 'adopt-policy', overlay: OVERLAY })
  act('24 13:20', { do: 'set-pin', pin: '4711' })
  act('24 13:21', { do: 'set-pin', pin: '0815', old: '1234' })
  log.record('24 13:30', 'M-207', { do: 'clear-pin', member: 'M-104', why: 'forgotten' })
  act('24 14:00', { do: 'send-away', elements: ['G-1', 'R-1'], to: 'North Wash', for: 'advanced-cleaning' })
  const washed = { care: 'advanced-cleaning', on: '2026-11-24', who: 'North Wash' }
  act('24 20:00', {
    do: 'receive-batch',
    elements: ['G-1', 'R-1'],
    cares: [
      { element: 'G-1', result: 'serviceable', ...washed },
      { element: 'R-1', result: 'unserviceable', note: 'lining loose', ...washed },
    ],
    file: 'slip.csv',
  })
  act('25 06:30', { do: 'seat-member', seat: 'E6-2', member: 'M-207' })
  act('25 06:40', { do: 'clear-seat', seat: 'E6-2' })
  act('25 07:00', { do: 'hand-over', to: 'M-207' })
  return log
}
