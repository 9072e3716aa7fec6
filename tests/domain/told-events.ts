// Every kind of event with the sentence it is told in and the ids it is about.
import type { EventData, EventType } from '../../src/domain/events.ts'
import { engine6 } from './alder-hollow.ts'
import { STATION } from './given.ts'

export const tour = '2026-11-24-B'
const facepiece = { model: 'Skarrow', size: 'M' }

export type Row<T extends EventType> = [data: EventData[T], sentence: string, about: string[]]
/** A new kind of event without a row here does not compile. */
export const ROWS: { [T in EventType]: Row<T> } = {
  'station-made': [
    STATION.data as EventData['station-made'],
    'Alder Hollow made: America/New_York, rotation 24/48, tours start at 07:00.',
    [],
  ],
  'rig-added': [
    { rig: engine6 },
    'Rig Engine 6 (E6) added with 3 riding positions, minimum crew 2.',
    ['E6', 'E6-1', 'E6-2', 'E6-3'],
  ],
  'member-added': [{ member: { id: 'M-1', name: 'F. Iyer' } }, 'Member F. Iyer (M-1) added.', ['M-1']],
  'element-added': [{ element: { id: 'H-9', kind: 'hood' } }, 'Added hood H-9.', ['H-9']],
  'gear-imported': [
    {
      file: 'gear.csv',
      members: [{ id: 'M-1', name: 'F. Iyer' }],
      elements: [{ id: 'H-9', kind: 'hood', issuedTo: 'M-105' }],
    },
    'Imported 1 member and 1 element from gear.csv.',
    ['M-1', 'H-9', 'M-105'],
  ],
  'records-imported': [
    {
      file: 'past.csv',
      members: [],
      elements: [{ id: 'H-9', kind: 'hood', issuedTo: 'M-105' }],
      cares: [
        { element: 'H-9', care: 'advanced-cleaning', on: '2026-01-05', result: 'serviceable' },
        { element: 'C-1041', care: 'advanced-cleaning', on: '2026-01-05', result: 'serviceable' },
      ],
      fitTests: [{ member: 'M-207', facepiece, on: '2026-02-01', result: 'pass' }],
      changes: [{ id: 'C-1900', was: { issuedTo: null }, with: { issuedTo: 'M-104' } }],
    },
    'Imported 1 element, 2 cares, 1 fit test, 1 change from past.csv.',
    ['H-9', 'C-1900', 'M-105', 'M-104', 'C-1041', 'M-207'],
  ],
  'element-issued': [
    { element: 'C-1041', to: 'M-104', on: '2020-06-01' },
    'Issued coat shell C-1041 to A. Varga (M-104) on 1 Jun 2020.',
    ['C-1041', 'M-104'],
  ],
  'element-returned': [{ element: 'C-1041' }, 'Returned coat shell C-1041 to the rack.', ['C-1041']],
  'tour-opened': [
    {
      tour,
      platoon: 'B',
      officer: 'M-104',
      on: '2026-11-24',
      relieved: [
        { seat: 'E6-1', member: 'M-104' },
        { seat: 'E6-2', member: 'M-207' },
      ],
    },
    'Opened tour 2026-11-24-B, platoon B, officer A. Varga (M-104). Relieved: A. Varga (M-104), C. Lindqvist (M-207).',
    [tour, 'M-104', 'E6-1', 'M-104', 'E6-2', 'M-207'],
  ],
  'member-seated': [
    { seat: 'E6-1', member: 'M-105', relieves: 'M-104' },
    'Seated B. Okoro (M-105) at E6-1, relieving A. Varga (M-104).',
    ['E6-1', 'M-105', 'M-104'],
  ],
  'seat-cleared': [
    { seat: 'E6-1', member: 'M-104' },
    'Cleared E6-1: A. Varga (M-104) left it.',
    ['E6-1', 'M-104'],
  ],
  'seat-answered': [
    {
      seat: 'E6-1',
      member: 'M-104',
      tour,
      findings: [{ element: 'H-5', point: 'soiled', matter: 'safety' }],
    },
    'E6-1 answered by A. Varga (M-104): hood H-5: soiled (safety).',
    ['E6-1', 'M-104', 'H-5'],
  ],
  'pressure-read': [{ element: 'Y-31', psi: 4400 }, 'Read 4400 psi on cylinder Y-31.', ['Y-31']],
  'element-tagged': [
    { element: 'C-1041', reason: 'torn seam', matter: 'safety' },
    'Tagged coat shell C-1041 out of service: torn seam (safety).',
    ['C-1041'],
  ],
  'tag-lifted': [
    { element: 'C-1041', basis: 'sewn', reasons: ['torn seam', 'burn hole'] },
    'Lifted the tag on coat shell C-1041 (torn seam; burn hole): sewn.',
    ['C-1041'],
  ],
  'element-swapped': [
    {
      seat: 'E6-1',
      kind: 'coat-shell',
      holder: 'M-104',
      in: 'C-1900',
      out: 'C-1041',
      reason: 'torn seam',
      tour,
    },
    'Swapped coat shell C-1900 in at E6-1, C-1041 out: torn seam.',
    ['E6-1', 'M-104', 'C-1900', 'C-1041'],
  ],
  'swap-reversed': [
    { seat: 'E6-1', kind: 'coat-shell', holder: 'M-104', in: 'C-1041', out: 'C-1900', tour },
    'Swapped back coat shell C-1041 at E6-1, C-1900 out.',
    ['E6-1', 'M-104', 'C-1041', 'C-1900'],
  ],
  'exposure-recorded': [
    {
      exposure: 'products-of-combustion',
      seats: ['E6-1'],
      elements: ['C-1041', 'H-5'],
      incident: '26-0412',
    },
    'Exposure to products of combustion at 26-0412 at E6-1: C-1041, H-5.',
    ['E6-1', 'C-1041', 'H-5'],
  ],
  'care-recorded': [
    {
      element: 'C-1041',
      care: 'advanced-cleaning',
      on: '2026-11-20',
      result: 'serviceable',
      who: 'North Wash',
      note: 'rinsed twice',
    },
    'Advanced cleaning of coat shell C-1041 on 20 Nov 2026 by North Wash, serviceable: rinsed twice.',
    ['C-1041'],
  ],
  'fit-test-recorded': [
    { member: 'M-104', facepiece, on: '2026-02-01', result: 'pass' },
    'Fit test of A. Varga (M-104) with Skarrow M on 1 Feb 2026: pass.',
    ['M-104'],
  ],
  'elements-sent-away': [
    { elements: ['C-1041', 'H-5'], to: 'North Wash', for: 'advanced-cleaning' },
    'Sent to North Wash for advanced cleaning: C-1041, H-5.',
    ['C-1041', 'H-5'],
  ],
  'elements-received-back': [{ elements: ['C-1041'] }, 'Received back: C-1041.', ['C-1041']],
  'batch-received': [
    {
      elements: ['C-1041', 'H-5', 'H-6'],
      cares: [
        {
          element: 'C-1041',
          care: 'advanced-cleaning',
          on: '2026-11-20',
          result: 'serviceable',
          who: 'North Wash',
        },
        {
          element: 'H-5',
          care: 'advanced-cleaning',
          on: '2026-11-20',
          result: 'serviceable',
          who: 'North Wash',
        },
        {
          element: 'H-5',
          care: 'advanced-inspection',
          on: '2026-11-21',
          result: 'unserviceable',
          note: 'thin',
        },
      ],
      file: 'slip.csv',
    },
    'Received back by the slip slip.csv: advanced cleaning on 20 Nov 2026 by North Wash, serviceable: C-1041, H-5; advanced inspection on 21 Nov 2026, unserviceable (thin): H-5; without a care: H-6.',
    ['C-1041', 'H-5', 'H-6'],
  ],
  'element-held': [
    { element: 'C-1041', reason: 'injury' },
    'Held coat shell C-1041 as evidence: injury.',
    ['C-1041'],
  ],
  'element-retired': [
    { element: 'C-1041', reason: 'ten years old', disposal: 'cut up' },
    'Retired coat shell C-1041: ten years old. Disposal: cut up.',
    ['C-1041'],
  ],
  'note-made': [{ text: 'hydrant 12 frozen' }, 'Note: hydrant 12 frozen', []],
  'event-amended': [
    {
      seq: 7,
      type: 'element-added',
      subject: 'C-1041',
      why: 'misread',
      was: { made: '2019-03', edition: null },
      with: { made: '2018-03', edition: '1971-2018' },
    },
    'Amended event 7 (C-1041): made 2018-03, was 2019-03; edition 1971-2018, was nothing. misread.',
    ['C-1041'],
  ],
  'item-acknowledged': [
    { item: 'stand-in-C-1900', about: ['C-1900'], words: 'Coat shell C-1900 stands in.', tour },
    'Acknowledged: Coat shell C-1900 stands in.',
    ['C-1900'],
  ],
  'tour-handed-over': [
    { tour, from: 'M-104', to: 'M-207' },
    'Handed over tour 2026-11-24-B from A. Varga (M-104) to C. Lindqvist (M-207).',
    [tour, 'M-104', 'M-207'],
  ],
  'policy-adopted': [
    { overlay: { name: 'ours', changes: [], add: [] } },
    'Adopted the policy overlay "ours".',
    [],
  ],
  'pin-set': [
    { member: 'M-104', pin: { scheme: 'scrypt', n: 16, r: 8, p: 1, salt: 'c2FsdA==', hash: 'aGFzaA==' } },
    'A. Varga (M-104) set a PIN.',
    ['M-104'],
  ],
  'pin-cleared': [
    { member: 'M-104', why: 'forgotten', byPin: true },
    'Cleared the PIN of A. Varga (M-104): forgotten. Confirmed by PIN.',
    ['M-104'],
  ],
  'pin-refused': [
    { member: 'M-104', for: 'hand-over', tries: 3 },
    'A wrong PIN was given for A. Varga (M-104), asked for by hand over; try 3.',
    ['M-104'],
  ],
  'key-made': [
    {
      key: 'bayboard/alder-hollow-0123456789abcdef+1a2b3c4d+AQ',
      replaces: 'bayboard/alder-hollow-0123456789abcdef+99887766+AQ',
      vouched: null,
      why: 'the folder keys was lost',
    },
    'Made the key 1a2b3c4d for the seals in place of 99887766, which does not vouch for it: the folder keys was lost.',
    [],
  ],
  'journal-recovered': [
    { file: 'journal.torn-1', bytes: 12 },
    'An unfinished last line of 12 bytes was set aside in journal.torn-1.',
    [],
  ],
}
