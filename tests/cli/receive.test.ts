// `bayboard receive`: a care slip that comes back filled in is taken whole or not at all, each bad row named by line and column.
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { bayboard, journalOf, lines, newPlace, recorded, type Told } from './run.ts'
import { fitStation } from './two-seats.ts'

const by = (command: Told): Told => ({ by: 'M-104', ...command })
const sent = by({
  do: 'send-away',
  elements: ['C-2', 'L-2', 'K-2'],
  to: 'North Wash',
  for: 'advanced-cleaning',
})
let station = ''
let today = ''
beforeAll(() => {
  station = fitStation(sent)
  today = (JSON.parse(lines(journalOf(station)).at(-1)!) as { at: string }).at.slice(0, 10)
})
const received = (text: string, ...args: string[]) => {
  const file = join(newPlace(), 'slip.csv')
  writeFileSync(file, text)
  return bayboard(['receive', file, ...args], { station })
}
const slip = (...rows: string[]) => `${['element,kind,care,on,result,who,note', ...rows].join('\r\n')}\r\n`
const good = () =>
  slip(
    `C-2,coat shell,advanced cleaning,${today},serviceable,J. Bench,`,
    `C-2,coat shell,advanced inspection,${today},unserviceable,J. Bench,"collar thin, both sides"`,
    `L-2,,advanced-cleaning,${today},Serviceable,J. Bench,`,
    'K-2,hood,,,not back,,',
  )
const lastEvent = () =>
  JSON.parse(lines(journalOf(station)).at(-1)!) as { type: string; by: string; data: object }

describe('nothing is recorded', () => {
  test('by a dry run, which says what would be', () => {
    const before = journalOf(station)
    const { status, stdout } = received(good(), '--dry-run')
    expect(status).toBe(0)
    expect(stdout).toMatch(
      /slip\.csv would bring back 2 elements with 3 cares, 1 of them unserviceable; 1 not back: K-2\. Nothing was recorded\.\n$/,
    )
    expect(journalOf(station)).toBe(before)
  })

  test('of a slip with bad rows: each is told by line and column, what the station has against it as well', () => {
    const before = journalOf(station)
    const { status, stdout, stderr } = received(
      slip(
        `L-2,,drying,${today},serviceable,,`,
        `C-2,helmet,drying,${today},serviceable,,`,
        `C-2,,drying,${today},serviceable,,`,
        `C-99,,drying,${today},serviceable,,`,
        `C-1,,drying,${today},serviceable,,`,
        'K-2,,drying,2020-01-02,serviceable,,',
        `K-2,,flow test,${today},serviceable,,`,
      ),
    )
    expect({ status, stdout }).toEqual({ status: 1, stdout: '' })
    for (const words of [
      'Line 3, column "kind": the kind of C-2 is coat shell, and the row says helmet.',
      'Line 4, column "care": C-2 has two rows for drying.',
      'Line 5, column "element": There is no element C-99 in this station.',
      'Line 6, column "element": Coat shell C-1 is not away, so it cannot come back.',
      'Line 7, column "on": Hood K-2 was ',
      'Line 8, column "care": No flow test is done on hood K-2.',
    ])
      expect(stderr).toContain(words)
    expect(stderr).toMatch(/has 6 faults\. Nothing was received\. Put them right and receive it again\.\n$/)
    expect(journalOf(station)).toBe(before)
  })

  test('where the serial is of another piece: what came back in its place is not what was sent', () => {
    const before = journalOf(station)
    const head = 'element,serial,care,on,result'
    const row = (element: string, serial: string) => `${element},${serial},drying,${today},serviceable`
    const { status, stderr } = received(
      [head, row('C-2', 'S-C-9'), row('L-2', 's-l-2'), row('K-2', '')].join('\n'),
    )
    expect(status).toBe(1)
    expect(lines(stderr)).toEqual([
      'Line 2, column "serial": the serial of C-2 is S-C-2, and the row says S-C-9: see which piece came back.',
      expect.stringContaining('has 1 fault. Nothing was received.'),
    ])
    expect(journalOf(station)).toBe(before)
  })

  test('and what the station has against the rows that can be read is told beside what cannot be read', () => {
    const { stderr } = received(slip(`C-2,,drying,${today},ok,,`, `C-99,,drying,${today},serviceable,,`))
    expect(lines(stderr)).toEqual([
      'Line 2, column "result": "ok" is no result. Write one of: serviceable, unserviceable, not done, not back.',
      'Line 3, column "element": There is no element C-99 in this station.',
      expect.stringContaining('has 2 faults. Nothing was received.'),
    ])
  })

  test('of a file that cannot be read: it ends with 3', () => {
    expect(bayboard(['receive', '/nowhere/slip.csv'], { station })).toMatchObject({
      status: 3,
      stderr: expect.stringContaining('/nowhere/slip.csv cannot be read'),
    })
  })
})

test('a slip that is filled in becomes one event, with the gear back and each care as it was written', () => {
  const count = lines(journalOf(station)).length
  expect(received(good(), '--by', 'M-104')).toEqual({
    status: 0,
    stdout: `Received back 2 elements with 3 cares, 1 of them unserviceable; 1 not back: K-2, as event ${count + 1}.\n`,
    stderr: '',
  })
  expect(lines(journalOf(station))).toHaveLength(count + 1)
  const who = 'J. Bench'
  expect(lastEvent()).toMatchObject({
    type: 'batch-received',
    by: 'M-104',
    data: {
      elements: ['C-2', 'L-2'],
      file: 'slip.csv',
      cares: [
        { element: 'C-2', care: 'advanced-cleaning', on: today, result: 'serviceable', who },
        {
          element: 'C-2',
          care: 'advanced-inspection',
          result: 'unserviceable',
          note: 'collar thin, both sides',
        },
        { element: 'L-2', care: 'advanced-cleaning', result: 'serviceable' },
      ],
    },
  })
  expect(bayboard(['history', 'C-2'], { station }).stdout).toContain(
    'unserviceable (collar thin, both sides): C-2',
  )
  expect(bayboard(['verify'], { station }).status).toBe(0)
})

test('the slip that print made is received once its three columns are filled in, and it is said by whom', () => {
  recorded(station, [
    by({ do: 'send-away', elements: ['H-2'], to: 'Bench', for: 'repair' }),
    by({ do: 'hand-over', to: 'M-105' }),
  ])
  const out = join(newPlace(), 'slip.pdf')
  bayboard(['print', 'care-slip', '--out', out], { station })
  const printed = readFileSync(out.replace('.pdf', '.csv'), 'utf8')
  const filled = printed.replace(/repair,,,,/, `repair,${today},serviceable,J. Bench,strap sewn`)
  expect(filled).not.toBe(printed)
  const unnamed = received(filled)
  expect(unnamed.status).toBe(2)
  expect(unnamed.stderr).toContain('Name the member who receives it: --by ID. Nothing was recorded.')
  expect(received(filled, '--by', 'M-105').status).toBe(0)
  expect(lastEvent()).toMatchObject({
    by: 'M-105',
    data: { cares: [{ element: 'H-2', care: 'repair', note: 'strap sewn' }] },
  })
})
