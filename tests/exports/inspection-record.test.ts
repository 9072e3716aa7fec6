// The inspections of breathing apparatus with the five items that 29 CFR 1910.134(h)(3)(iv) asks for: date, name, findings, remedial action, serial number.
import { parse } from 'csv-parse/sync'
import { describe, expect, test } from 'vitest'
import {
  followInspections,
  inspectionRecordShape,
  type InspectionRecord,
} from '../../src/exports/inspection-record.ts'
import { inspectionRows } from '../../src/exports/record-rows.ts'
import { instant, type Recorder } from './recorder.ts'
import { house } from './tours.ts'

function recordOf(log: Recorder, since: string | null = null, ids = ['F-1', 'P-1', 'Y-1']): InspectionRecord {
  const walk = followInspections(ids, since)
  log.events.forEach(walk.see)
  return walk.end(log.state, { at: instant('26 08:00'), head: { seq: log.events.length, hash: log.head } })
}
const of = (record: InspectionRecord, id: string) => record.elements.find((each) => each.id === id)!

/** A tour in which the officer rides; the roll is called by `call`. */
function onTour(): Recorder {
  const log = house()
  log.record('24 07:00', 'M-104', {
    do: 'open-tour',
    tour: 'T-1',
    platoon: 'B',
    officer: 'M-104',
    on: '2026-11-24',
  })
  log.record('24 07:01', 'M-104', { do: 'seat-member', seat: 'E6-1', member: 'M-104' })
  return log
}
const call = (log: Recorder, when: string, ...points: [element: string, point: string][]) =>
  log.record(when, 'M-104', {
    do: 'answer',
    seat: 'E6-1',
    findings: points.map(([element, point]) => ({ element, point, matter: 'safety' })),
  })

describe('an inspection', () => {
  test('by roll call certifies each apparatus at the riding position, none of the garments', () => {
    const log = onTour()
    const { seq } = call(log, '24 07:10')
    const record = recordOf(log, null, ['F-1', 'P-1', 'Y-1', 'B-1'])
    const passed = {
      seq,
      date: '2026-11-24',
      inspector: 'A. Varga (M-104)',
      how: 'roll call of E6-1',
      findings: 'none',
      remedialAction: 'none needed',
      withdrawn: false,
    }
    for (const id of ['F-1', 'P-1', 'Y-1']) expect(of(record, id).inspections).toEqual([passed])
    expect(of(record, 'B-1').inspections).toEqual([])
  })

  test('with a finding says what was found, that it was removed from service, and what was done next', () => {
    const log = onTour()
    call(log, '24 07:10', ['F-1', 'cracked lens'])
    log.record('24 08:00', 'M-104', { do: 'send-away', elements: ['F-1'], to: 'Bench', for: 'repair' })
    const [inspection] = of(recordOf(log), 'F-1').inspections
    expect(inspection).toMatchObject({ findings: 'cracked lens' })
    expect(inspection!.remedialAction).toBe(
      'Removed from service. 2026-11-24 08:00: Sent to Bench for repair: F-1.',
    )
    expect(of(recordOf(log), 'P-1').inspections[0]).toMatchObject({ findings: 'none' })
  })

  test('with a finding about which nothing was done says so', () => {
    const log = onTour()
    call(log, '24 07:10', ['P-1', 'strap torn'])
    expect(of(recordOf(log), 'P-1').inspections[0]!.remedialAction).toBe(
      'Removed from service. Anything more is not on record.',
    )
  })

  // 29 CFR 1910.134(h)(3)(iii): recharged when the pressure falls to 90% of the rated one; 4050 of 4500 by OSHA letter 2005-08-19.
  test.each([
    [4051, 'none'],
    [4050, '4050 psi is at or below 90% of 4500'],
  ])('by its gauge at %i psi of 4500 finds: %s', (psi, findings) => {
    const log = onTour()
    log.record('24 07:05', 'M-104', { do: 'read-pressure', element: 'Y-1', psi })
    expect(of(recordOf(log), 'Y-1').inspections).toMatchObject([
      { findings, how: `gauge read, ${psi} psi of 4500` },
    ])
  })

  test('by a technician names the technician and the day it was done, not the day it was written down', () => {
    const log = house()
    const care = {
      do: 'record-care',
      element: 'P-1',
      care: 'flow-test',
      on: '2026-11-20',
      result: 'unserviceable',
    }
    log.record('24 07:05', 'M-104', { ...care, who: 'J. Bench', note: 'low flow' })
    expect(of(recordOf(log), 'P-1').inspections).toMatchObject([
      { date: '2026-11-20', inspector: 'J. Bench', findings: 'unserviceable: low flow' },
    ])
  })

  test.each(['repair', 'drying'])('%s is no inspection', (sort) => {
    const log = house()
    log.record('24 07:05', 'M-104', {
      do: 'record-care',
      element: 'F-1',
      care: sort,
      on: '2026-11-20',
      result: 'serviceable',
    })
    expect(of(recordOf(log), 'F-1').inspections).toEqual([])
  })

  test('that was withdrawn stays to be read, marked as such', () => {
    const log = onTour()
    const { seq } = call(log, '24 07:10')
    log.record('24 07:20', 'M-104', { do: 'amend', seq, why: 'not asked', with: { withdrawn: true } })
    expect(of(recordOf(log), 'F-1').inspections).toMatchObject([{ seq, withdrawn: true }])
  })
})

describe('which inspections', () => {
  const log = onTour()
  call(log, '24 07:10')
  log.record('25 07:00', 'M-104', { do: 'read-pressure', element: 'Y-1', psi: 4400 })
  log.record('26 07:00', 'M-104', {
    do: 'record-care',
    element: 'Y-1',
    care: 'hydrostatic-test',
    on: '2026-11-10',
    result: 'serviceable',
  })

  test('the last of each by its day, unless told; what is entered late hides nothing newer', () => {
    expect(of(recordOf(log), 'Y-1').inspections.map((each) => each.date)).toEqual(['2026-11-25'])
  })

  test.each([
    ['2026-11-25', ['2026-11-25']],
    ['2026-11-24', ['2026-11-24', '2026-11-25']],
    ['2026-11-01', ['2026-11-24', '2026-11-25', '2026-11-10']],
  ])('since %s: %j', (since, dates) => {
    expect(of(recordOf(log, since), 'Y-1').inspections.map((each) => each.date)).toEqual(dates)
  })

  test('apparatus without any says "not on record" in each column, and the serial number too', () => {
    const rows = parse<Record<string, string>>(inspectionRows(recordOf(house())), { columns: true })
    expect(rows).toHaveLength(3)
    for (const row of rows) {
      for (const column of ['serial', 'date', 'inspector', 'findings', 'remedial-action']) {
        expect(row[column]).toBe('not on record')
      }
    }
  })

  test('it has the published shape', () => {
    expect(inspectionRecordShape.safeParse(recordOf(log, '2026-11-01')).error).toBeUndefined()
  })
})
