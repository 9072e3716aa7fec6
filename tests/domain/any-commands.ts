// Commands for tests that hold for every command: one well-formed of each name, and any mixture of likely and unlikely ones.
import * as fc from 'fast-check'
import type { CommandName, CommandOf } from '../../src/domain/commands.ts'
import type { Event } from '../../src/domain/events.ts'
import { evolve, replay } from '../../src/domain/evolve.ts'
import { emptyState } from '../../src/domain/state.ts'
import { crew } from './alder-hollow.ts'
import { journalOf, submit, type Told } from './given.ts'

type Sample<Name extends CommandName> = Omit<CommandOf<Name>, 'by' | 'at'>

/** One command of each name, as it could be given in the house of Alder Hollow. */
export const wellFormed: { [Name in CommandName]: Sample<Name> } = {
  'add-rig': {
    do: 'add-rig',
    rig: { id: 'T2', name: 'Truck 2', minimum: 1, seats: [{ id: 'T2-1', position: 'Officer' }] },
  },
  'add-member': { do: 'add-member', member: { id: 'M-300', name: 'D. Abara', platoon: 'B' } },
  'add-element': { do: 'add-element', element: { id: 'C-2000', kind: 'coat-shell' } },
  'import-gear': {
    do: 'import-gear',
    file: 'gear.csv',
    members: [],
    elements: [{ id: 'C-2001', kind: 'hood' }],
  },
  'import-records': {
    do: 'import-records',
    file: 'gear.csv',
    members: [],
    elements: [],
    cares: [{ element: 'C-1041', care: 'advanced-cleaning', on: '2026-01-05', result: 'serviceable' }],
    fitTests: [],
    changes: [],
  },
  issue: { do: 'issue', element: 'C-1900', to: 'M-105' },
  'return-to-rack': { do: 'return-to-rack', element: 'C-1041' },
  'open-tour': { do: 'open-tour', tour: 'T-1', platoon: 'B', officer: 'M-104', on: '2026-11-24' },
  'seat-member': { do: 'seat-member', seat: 'E6-1', member: 'M-104' },
  'clear-seat': { do: 'clear-seat', seat: 'E6-1' },
  answer: { do: 'answer', seat: 'E6-1' },
  'read-pressure': { do: 'read-pressure', element: 'Y-31', psi: 4400 },
  tag: { do: 'tag', element: 'C-1041', reason: 'torn seam', matter: 'safety' },
  'lift-tag': { do: 'lift-tag', element: 'C-1041', basis: 'sewn' },
  swap: { do: 'swap', seat: 'E6-1', out: 'C-1041', in: 'C-1900' },
  'swap-back': { do: 'swap-back', seat: 'E6-1', kind: 'coat-shell' },
  'record-exposure': { do: 'record-exposure', exposure: 'water', seats: ['E6-1'] },
  'record-care': {
    do: 'record-care',
    element: 'C-1041',
    care: 'drying',
    on: '2026-11-24',
    result: 'serviceable',
  },
  'record-fit-test': {
    do: 'record-fit-test',
    member: 'M-104',
    facepiece: { model: 'Skarrow', size: 'M' },
    on: '2026-02-01',
    result: 'pass',
  },
  'send-away': { do: 'send-away', elements: ['C-1041'], to: 'North Wash', for: 'advanced-cleaning' },
  'receive-back': { do: 'receive-back', elements: ['C-1041'] },
  'receive-batch': {
    do: 'receive-batch',
    elements: ['C-1041'],
    cares: [{ element: 'C-1041', care: 'advanced-cleaning', on: '2026-11-24', result: 'serviceable' }],
  },
  hold: { do: 'hold', element: 'C-1041', reason: 'injury' },
  retire: { do: 'retire', element: 'C-1901', reason: 'worn out', disposal: 'cut up' },
  note: { do: 'note', text: 'hydrant 12 frozen' },
  amend: { do: 'amend', seq: 5, why: 'misread', with: { name: 'A. Varga-Lowe' } },
  acknowledge: { do: 'acknowledge', item: 'tag-C-1041' },
  'hand-over': { do: 'hand-over', to: 'M-207' },
  'adopt-policy': { do: 'adopt-policy', overlay: { name: 'ours', changes: [], add: [] } },
  'set-pin': { do: 'set-pin', pin: '4711' },
  'clear-pin': { do: 'clear-pin', member: 'M-207', why: 'forgotten' },
}

const one = fc.constantFrom
const element = one('C-1041', 'C-1900', 'C-1901', 'H-5', 'H-6', 'Y-31', 'Y-32', 'C-7', 'constructor')
const elements = fc.array(element, { minLength: 1, maxLength: 4 })
const member = one('M-104', 'M-105', 'M-207', 'M-9')
// The officer's riding position has gear, so that is where most meets most.
const seat = one('E6-1', 'E6-1', 'E6-1', 'E6-2', 'E6-3', 'E6-9')
const kind = one('coat-shell', 'coat-shell', 'hood', 'cylinder')
const care = one('advanced-cleaning', 'advanced-inspection', 'hydrostatic-test')
const exposure = one('products-of-combustion', 'water')
const on = one('2026-11-24', '2026-11-20', '2026-01-01', '2026-11-25')
const result = one('serviceable', 'unserviceable')
const words = one('torn seam', 'burn hole', 'soiled')
const matter = one('safety', 'compliance')
const facepiece = fc.record({ model: one('Skarrow', 'Wide'), size: one('S', 'M') })
const newId = fc.integer({ min: 0, max: 30 }).map((number) => `N-${number}`)
const maybe = { requiredKeys: [] }

const changes = fc.oneof(
  fc.record({ withdrawn: fc.constant(true), subject: element }, { requiredKeys: ['withdrawn'] }),
  fc.record({ on, result }, maybe),
  fc.record({ subject: element, of: care, result }, { requiredKeys: ['result'] }),
  fc.record({ reason: words }),
  fc.record({ psi: fc.integer({ min: 0, max: 6000 }) }),
  fc.record({ exposure, elements }, maybe),
  fc.record({ made: one('2018-03', '2020-01') }),
  fc.record({ sizes: fc.constant({ coat: '46x32' }) }),
  fc.record({ text: words }),
)

const commands: { [Name in CommandName]: fc.Arbitrary<object> } = {
  'add-rig': newId.map((id) => ({
    rig: { id, name: id, minimum: 1, seats: [{ id: `${id}-1`, position: 'Officer' }] },
  })),
  'add-member': newId.map((id) => ({ member: { id, name: id, platoon: 'B' } })),
  'add-element': fc.record({ element: fc.record({ id: newId, kind }) }),
  'import-gear': fc.record({
    file: fc.constant('gear.csv'),
    members: fc.array(
      newId.map((id) => ({ id, name: id })),
      { maxLength: 1 },
    ),
    elements: fc.array(
      fc.record({ id: newId, kind, issuedTo: fc.oneof(member, seat) }, { requiredKeys: ['id', 'kind'] }),
      { maxLength: 2 },
    ),
  }),
  'import-records': fc.record({
    file: fc.constant('gear.csv'),
    members: fc.constant([]),
    elements: fc.array(fc.record({ id: newId, kind }), { maxLength: 1 }),
    cares: fc.uniqueArray(fc.record({ element, care, on, result }), { maxLength: 3 }),
    fitTests: fc.array(
      fc.record({
        member,
        facepiece: fc.constant({ model: 'Clear Two', size: 'M' }),
        on,
        result: one('pass', 'fail'),
      }),
      { maxLength: 1 },
    ),
    changes: fc.array(
      fc
        .record({ id: element, size: words, to: fc.option(fc.oneof(member, seat), { nil: undefined }) })
        .map(({ id, size, to }) => ({
          id,
          was: { size: '44x32', ...(to && { issuedTo: null }) },
          with: { size, ...(to && { issuedTo: to }) },
        })),
      { maxLength: 1 },
    ),
  }),
  issue: fc.record({ element, to: fc.oneof(member, seat) }),
  'return-to-rack': fc.record({ element }),
  'open-tour': fc.record({ tour: newId, platoon: one('B', 'C'), officer: member, on }),
  'seat-member': fc.record({ seat, member }),
  'clear-seat': fc.record({ seat }),
  answer: fc.record({
    seat,
    findings: fc.array(fc.record({ element, point: words, matter }), { maxLength: 2 }),
  }),
  'read-pressure': fc.record({ element, psi: fc.integer({ min: 0, max: 6000 }) }),
  tag: fc.record({ element, reason: words, matter }),
  'lift-tag': fc.record({ element, basis: words }),
  swap: fc.record(
    {
      seat,
      in: one('C-1900', 'C-1901', 'C-1041', 'H-6', 'Y-32', 'C-7'),
      out: one('C-1041', 'C-1041', 'C-1900', 'H-5', 'Y-31'),
    },
    { requiredKeys: ['seat', 'in'] },
  ),
  'swap-back': fc.record({ seat, kind }),
  'record-exposure': fc.record(
    { exposure, seats: fc.array(seat, { minLength: 1, maxLength: 2 }), elements },
    { requiredKeys: ['exposure'] },
  ),
  'record-care': fc.record({ element, care, on, result }),
  'record-fit-test': fc.record({ member, facepiece, on, result: one('pass', 'fail') }),
  'send-away': fc.record({ elements, to: fc.constant('North Wash'), for: care }),
  'receive-back': fc.record({ elements }),
  'receive-batch': fc
    .record({
      id: element,
      cares: fc.uniqueArray(fc.record({ care, on: one('2026-11-24'), result }), { maxLength: 2 }),
    })
    .map(({ id, cares }) => ({ elements: [id], cares: cares.map((each) => ({ element: id, ...each })) })),
  hold: fc.record({ element, reason: words }),
  retire: fc.record({ element, reason: words, disposal: words }),
  note: fc.record({ text: words }),
  amend: fc.record({ seq: fc.integer({ min: 1, max: 80 }), why: words, with: changes }),
  acknowledge: fc.record({
    item: fc.tuple(one('tag', 'away', 'held', 'stand-in'), element).map((parts) => parts.join('-')),
  }),
  'hand-over': fc.record({ to: member }),
  'set-pin': fc.record({ pin: one('4711', '0815') }),
  'clear-pin': fc.record({ member, why: words }),
  'adopt-policy': fc.constant({
    overlay: {
      name: 'ours',
      changes: [{ id: 'structural-service-life', limit: 'P9Y', reason: 'ours' }],
      add: [],
    },
  }),
}

/** Any well-formed command about the house of Alder Hollow, with a few that name what is not there. */
const anyCommand: fc.Arbitrary<Told> = fc.oneof(
  ...Object.entries(commands).map(([name, rest]) => rest.map((each) => ({ do: name, ...each }) as Told)),
)

/** Acts on gear and seats only: these meet each other in many more ways. */
const ACTS: CommandName[] = [
  ...Array<CommandName>(4).fill('swap'),
  ...Array<CommandName>(4).fill('swap-back'),
  ...Array<CommandName>(2).fill('receive-back'),
  ...Array<CommandName>(3).fill('receive-batch'),
  ...Array<CommandName>(2).fill('seat-member'),
  'clear-seat',
  'issue',
  'return-to-rack',
  'send-away',
  'retire',
  'tag',
  'lift-tag',
  'open-tour',
  'hand-over',
]
const anyAct: fc.Arbitrary<Told> = fc.oneof(
  ...ACTS.map((name) => commands[name].map((each) => ({ do: name, ...each }) as Told)),
)

/** Seeded, so that a failure is the same failure again. */
export const RUNS = { seed: 20261124, numRuns: 150 }
export const anyTour = fc.array(fc.oneof(anyCommand, anyAct), { minLength: 10, maxLength: 60 })
/** Two ride, who may change places and answer again; one who is off duty has a PIN. */
const LIKELY: Told[] = [
  ...(Object.values(wellFormed) as Told[]),
  { do: 'seat-member', seat: 'E6-2', member: 'M-105' },
  { do: 'seat-member', seat: 'E6-1', member: 'M-105' },
  { do: 'seat-member', seat: 'E6-2', member: 'M-104' },
  { do: 'answer', seat: 'E6-2' },
  { do: 'set-pin', by: 'M-207', pin: '0815' },
]
/** Mostly allowed: a tour opened, and then what can be given in that house, in any order. */
export const anyLikely: fc.Arbitrary<Told[]> = fc
  .array(fc.constantFrom(...LIKELY, ...LIKELY.slice(-5)), { minLength: 20, maxLength: 60 })
  .map((told) => [wellFormed['open-tour'], ...told])
export const anyActs = fc.array(anyAct, { minLength: 10, maxLength: 80 })

/** The journal that a mixture of commands leaves: what is refused leaves nothing. */
export function journalAfter(commands: Told[]): Event[] {
  const events = journalOf(crew)
  let state = replay(emptyState(), events)
  for (const command of commands) {
    const outcome = submit(state, command)
    if ('refused' in outcome) continue
    events.push(outcome.event)
    state = evolve(state, outcome.event)
  }
  return events
}
