// Whole spreadsheets as departments keep them (all invented), and what they become in a station.
import { describe, expect, it } from 'vitest'
import { parseCommand, type Command } from '../../../src/domain/commands.ts'
import { decide } from '../../../src/domain/decide.ts'
import type { Event } from '../../../src/domain/events.ts'
import { evolve } from '../../../src/domain/evolve.ts'
import { emptyState, type State } from '../../../src/domain/state.ts'
import { readGear } from '../../../src/store/imports/read-gear.ts'
import { faultsOf, readFixture, readText, taken } from './sheets.ts'

describe('a gear list with semicolons, a byte order mark and days first', () => {
  const { elements, members, notes } = taken(readFixture('day-first-semicolon.csv'))

  it('gives every row its element, zeros kept and dates read day first', () => {
    expect(members).toEqual([])
    expect(elements).toEqual([
      {
        id: '00123',
        kind: 'coat-shell',
        maker: 'Invented Outerwear, Inc.',
        model: 'Tour 3',
        serial: 'SN-0001',
        size: '44x32',
        made: '2019-03',
        edition: '1971-2018',
        assembly: 'A-77',
        inService: '2019-06-01',
        issuedTo: 'M-104',
        issuedOn: '2019-06-03',
      },
      expect.objectContaining({ id: '00124', kind: 'coat-liner', issuedOn: '2019-06-03' }),
      {
        id: '00125',
        kind: 'drag-rescue-device',
        maker: 'Invented Outerwear, Inc.',
        made: '2019-03',
        edition: '1971-2018',
        assembly: 'A-77',
        issuedTo: 'M-104',
      },
      expect.objectContaining({ id: '00126', kind: 'trouser-shell', size: '38x30', made: '2019-03' }),
      { id: '00127', kind: 'helmet', maker: 'Invented Shells' },
    ])
  })

  it('says how it was read', () => {
    expect(notes).toEqual([
      'The columns are separated by semicolons (;), not by commas.',
      'Column "Remarks" was not used.',
      'Column "Date of Manufacture": dates in figures were read day first, as "15/03/2019" on line 2 can only be. "15/03/2019" is 2019-03-15.',
      'Column "In Service": dates in figures were read day first, as the other dates of this file are. "01/06/2019" is 2019-06-01.',
      'Column "Issue Date": dates in figures were read day first, as the other dates of this file are. "03/06/2019" is 2019-06-03.',
      '"Bunker coat" was read as the coat shell; its liner needs a row of its own.',
      '"Pants" was read as the trouser shell; its liner needs a row of its own.',
      'Column "Date of Manufacture": "N/A" was read as an empty cell.',
      'Column "Assigned To": "Spare" was read as issued to nobody.',
    ])
  })
})

describe('a roster', () => {
  const { elements, members, notes } = taken(readFixture('roster.csv'))

  it('gives every row its member with the sizes it has', () => {
    expect(elements).toEqual([])
    expect(members).toEqual([
      {
        id: 'M-104',
        name: 'Varga, A.',
        rank: 'Captain',
        platoon: 'B',
        sizes: { coat: '44x32', trousers: '38x30', boots: '11D', gloves: '76W', facepiece: 'M' },
      },
      expect.objectContaining({ id: 'M-105', name: "O'Dell-Ito, B.", platoon: 'B' }),
      { id: 'M-106', name: 'Núñez, C.', rank: 'Firefighter', platoon: 'A' },
    ])
    expect(notes).toEqual(['Column "Phone" was not used.', '"B Shift" was read as the platoon "B".'])
  })
})

const at = '2026-11-24T07:02:11.000-05:00'

function given(...commands: unknown[]): State {
  const made = { name: 'Invented Station', timeZone: 'America/New_York', rotation: '24/48', starts: '07:00' }
  const first: Event = {
    seq: 1,
    at,
    by: 'setup',
    type: 'station-made',
    data: { format: 1, policy: 'nfpa-1851-2020', ...made },
  }
  return commands.reduce<State>(after, evolve(emptyState(), first))
}

function after(state: State, input: unknown): State {
  const parsed = parseCommand(input)
  if ('refused' in parsed) throw new Error(parsed.refused)
  const decision = decide({ ...(parsed.command as Command), at }, state)
  if ('refused' in decision) throw new Error(decision.refused)
  return evolve(state, { seq: state.seq + 1, at, by: 'setup', ...decision.draft } as Event)
}

const rig = { id: 'E6', name: 'Engine 6', minimum: 1, seats: [{ id: 'E6-1', position: 'Officer' }] }
const addRig = { do: 'add-rig', by: 'setup', rig }

describe('gear and members in one file, given as one command', () => {
  const { elements, members, notes } = taken(readFixture('gear-and-members.csv'))
  const command = { do: 'import-gear', by: 'setup', file: 'gear-and-members.csv', members, elements }

  it('stand in the station with every element issued to whom the file says, and the spares on the rack', () => {
    const state = given(addRig, command)
    expect([...state.members.keys()]).toEqual(['M-104', 'M-105'])
    expect(state.members.get('M-104')).toMatchObject({ name: 'A. Varga', sizes: { coat: '44x32' } })
    expect([...state.elements.values()].map((it) => [it.id, it.kind, it.issuedTo, it.issuedOn])).toEqual([
      ['C-1041', 'coat-shell', 'M-104', '2019-06-01'],
      ['L-1041', 'coat-liner', 'M-104', '2019-06-01'],
      ['C-1042', 'coat-shell', 'M-105', '2020-07-14'],
      ['G-31', 'gloves', 'M-104', null],
      ['F-9', 'facepiece', 'M-104', '2021-06-30'],
      ['S-1', 'air-pack', 'E6-1', null],
      ['Y-31', 'cylinder', 'E6-1', null],
      ['Y-32', 'cylinder', null, null],
      ['C-1900', 'coat-shell', null, null],
    ])
    expect(state.elements.get('Y-31')).toMatchObject({ ratedPsi: 4500, construction: 'carbon' })
    expect(state.elements.get('Y-32')).not.toHaveProperty('construction')
    expect(state.elements.get('C-1900')).toMatchObject({ custody: { where: 'rack' } })
    expect(state.elements.get('C-1041')).toMatchObject({ custody: { where: 'issued' }, made: '2019-03' })
  })

  it('are noted where a word was read with care', () => {
    expect(notes).toContain(
      'Column "Issue date": dates in figures were read month first, as "7/14/2020" on line 6 can only be. "6/1/2019" is 2019-06-01.',
    )
    expect(notes).toContain('Column "Construction" was used for cylinders only.')
    expect(notes).toContain(
      '"composite" does not say which fibre a cylinder is wrapped in: its construction was left out and is unproven.',
    )
  })

  it('do not come in a second time: the station knows the ids', () => {
    expect(() => given(addRig, command, command)).toThrow('M-104 is already the member A. Varga')
  })
})

describe('the bytes', () => {
  it('are not changed, and the same bytes read the same', () => {
    const bytes = Buffer.from('\ufeffID,Type\nX-1,Boots\n')
    const before = Buffer.from(bytes)
    const once = readGear(bytes, { file: 'gear.csv' })
    expect(readGear(bytes, { file: 'gear.csv' })).toEqual(once)
    expect(bytes.equals(before)).toBe(true)
  })

  it('give all or nothing: one bad row among good ones leaves only its fault', () => {
    const read = readText('ID,Type\nX-1,Boots\nX-2,Kite\nX-3,Hood\n')
    expect(read).not.toHaveProperty('elements')
    expect(faultsOf(read).map(({ line, column }) => [line, column])).toEqual([[3, 'Type']])
  })
})
