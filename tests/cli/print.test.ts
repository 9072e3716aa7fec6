// `bayboard print`: labels, tags, slips and records in every format, over nothing unasked, and a clear sentence for what cannot be printed.
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { beforeAll, describe, expect, test } from 'vitest'
import { z } from 'zod'
import { careSlipShape } from '../../src/exports/care-slip.ts'
import { bagTagsShape, labelsShape, outOfServiceTagsShape } from '../../src/exports/gear-tags.ts'
import { inspectionRecordShape } from '../../src/exports/inspection-record.ts'
import { elementRecordsShape } from '../../src/exports/record-shape.ts'
import { readPdf, squeezed, wordsOf } from '../paper/read-pdf.ts'
import { bayboard, newPlace, type Told } from './run.ts'
import { answers, emptyStation, fitStation } from './two-seats.ts'

const by = (command: Told): Told => ({ by: 'M-104', ...command })
let station = ''
beforeAll(() => {
  station = fitStation(
    answers('E6-1', [{ element: 'H-1', point: 'cracked shell', matter: 'safety' }]),
    by({ do: 'record-exposure', exposure: 'products-of-combustion', seats: ['E6-2'], incident: '26-0412' }),
    by({ do: 'send-away', elements: ['C-2', 'L-2', 'K-2'], to: 'North Wash', for: 'advanced-cleaning' }),
    by({ do: 'hold', element: 'K-2', reason: 'worn by the injured member' }),
  )
})
const printed = (...args: string[]) => bayboard(['print', ...args], { station })

const NOUNS: [string, string[], z.ZodType][] = [
  ['label', ['--all'], labelsShape],
  ['out-of-service-tag', [], outOfServiceTagsShape],
  ['bag-tag', [], bagTagsShape],
  ['care-slip', [], careSlipShape],
  ['element-record', ['C-2', 'H-1'], elementRecordsShape],
  ['inspection', [], inspectionRecordShape],
]

describe.each(NOUNS)('print %s', (noun, args, shape) => {
  test('as JSON has the shape that `schema` publishes', () => {
    const { status, stdout, stderr } = printed(noun, ...args, '--format', 'json')
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
    expect(shape.safeParse(JSON.parse(stdout)).error).toBeUndefined()
  })
})

test('a record as PDF goes to a file, and nothing else is said', async () => {
  const out = join(newPlace(), 'paper.pdf')
  const { status, stdout, stderr } = printed('element-record', 'C-2', 'H-1', '--out', out)
  expect({ status, stdout, stderr }).toEqual({ status: 0, stdout: `Wrote ${out}\n`, stderr: '' })
  const words = wordsOf(await readPdf(readFileSync(out)))
  for (const said of ['C-2, coat shell', 'H-1, helmet', 'not on record'])
    expect(words).toContain(squeezed(said))
})

describe('a care slip', () => {
  test('asks care for what is away, and for what is held nothing', async () => {
    const out = join(newPlace(), 'slip.pdf')
    printed('care-slip', '--to', 'north', '--out', out)
    const words = wordsOf(await readPdf(readFileSync(out)))
    for (const said of [
      'to North Wash',
      'Asked: advanced cleaning of 2 elements',
      'C-2',
      'at 26-0412',
      'K-2 hood',
    ])
      expect(words).toContain(squeezed(said))
    expect(words).toContain(squeezed('Held as evidence since it was sent. Isolate, bag, tag; do not clean.'))
    const rows = parse<Record<string, string>>(readFileSync(out.replace('.pdf', '.csv')), { columns: true })
    expect(rows.map(({ element, care, on, result }) => [element, care, on, result])).toEqual([
      ['C-2', 'advanced cleaning', '', ''],
      ['L-2', 'advanced cleaning', '', ''],
    ])
  })

  test('is not written where the rows beside it would replace a file', () => {
    const place = newPlace()
    writeFileSync(join(place, 'slip.csv'), 'mine')
    const { status, stderr } = printed('care-slip', '--out', join(place, 'slip.pdf'))
    expect(status).toBe(3)
    expect(stderr).toContain('slip.csv is already there. Nothing was written.')
    expect(readdirSync(place)).toEqual(['slip.csv'])
    expect(readFileSync(join(place, 'slip.csv'), 'utf8')).toBe('mine')
  })

  test('is not written under the name of its own rows, which would replace it', () => {
    const place = newPlace()
    const { status, stderr } = printed('care-slip', '--out', join(place, 'slip.csv'), '--force')
    expect(status).toBe(2)
    expect(stderr).toContain('slip.csv is the name of the rows that go with the slip. Nothing was written.')
    expect(readdirSync(place)).toEqual([])
  })

  test('is written with its rows or not at all, --force or not', () => {
    const place = newPlace()
    mkdirSync(join(place, 'slip.csv'))
    writeFileSync(join(place, 'slip.pdf'), 'mine')
    const { status, stdout, stderr } = printed('care-slip', '--force', '--out', join(place, 'slip.pdf'))
    expect({ status, stdout }).toEqual({ status: 3, stdout: '' })
    expect(stderr).toContain('slip.csv cannot be written: there is a folder in its place (EISDIR)')
    expect(readdirSync(place).toSorted()).toEqual(['slip.csv', 'slip.pdf'])
    expect(readFileSync(join(place, 'slip.pdf'), 'utf8')).toBe('mine')
  })

  test('of a batch there is not is refused', () => {
    expect(printed('care-slip', '--to', 'South')).toMatchObject({
      status: 1,
      stderr: 'bayboard: Nothing was sent away to South, so there is no care slip to make.\n',
    })
  })
})

test('which elements: by id, by kind and member, as rows for a label printer', () => {
  const idsOf = (...args: string[]) => {
    const { stdout } = printed('label', ...args, '--format', 'csv')
    return parse<Record<string, string>>(stdout, { columns: true }).map((each) => each['id'])
  }
  expect(idsOf('H-2', 'H-1')).toEqual(['H-2', 'H-1'])
  expect(idsOf('--kind', 'Coat shell')).toEqual(['C-1', 'C-2', 'C-9'])
  expect(idsOf('--kind', 'helmet', '--member', 'M-104')).toEqual(['H-1'])
})

test('the help of a noun has an example', () => {
  expect(bayboard(['print', 'care-slip', '--help']).stdout).toContain(
    'Example: bayboard print care-slip --to',
  )
})

describe('what cannot be printed', () => {
  test.each([
    [['label'], 2, 'Say which elements: their ids, --kind, --member or --all.'],
    [
      ['label', '--member', 'M-9'],
      1,
      'There is no member or riding position M-9 in this station. Nothing was made.',
    ],
    [['label', '--all', '--kind', 'cape'], 2, 'There is no kind cape.'],
    [['label', '--all', '--rows', '19'], 2, '--rows must be a whole number from 1 to 18, and 19 is not.'],
    [['label', '--all', '--columns', '7'], 2, '--columns must be a whole number from 1 to 6, and 7 is not.'],
    [['label', '--all', '--skip', '24'], 2, '--skip leaves no label on the first sheet.'],
    [['label', '--all', '--format', 'rtf'], 2, 'It is not made as rtf. Choose one of: pdf, csv, json.'],
    [
      ['out-of-service-tag', 'H-2'],
      1,
      'None of these elements is tagged out of service, so there is no tag to make.',
    ],
    [
      ['bag-tag', 'H-1'],
      1,
      'None of these elements is contaminated, wet or held, so there is no bag tag to make.',
    ],
    [['inspection', 'H-1'], 1, 'H-1 is no breathing apparatus: facepieces, air packs and cylinders are.'],
    [['element-record'], 2, 'Say which elements: their ids, --kind, --member or --all.'],
    [
      ['inspection', '--since', '2026-02-30'],
      2,
      '--since 2026-02-30 is not a calendar date written YYYY-MM-DD.',
    ],
    [['poster'], 2, 'poster'],
  ])('%j', (args, status, words) => {
    const out = join(newPlace(), 'paper.pdf')
    const ran = printed(...args, '--out', out)
    expect({ status: ran.status, stdout: ran.stdout }).toEqual({ status, stdout: '' })
    expect(ran.stderr).toContain(words)
    expect(existsSync(out)).toBe(false)
  })

  test('a path under a file says so and leaves nothing', () => {
    const place = newPlace()
    writeFileSync(join(place, 'a-file'), 'kept')
    const { status, stderr } = printed('label', 'H-1', '--out', join(place, 'a-file', 'labels.pdf'))
    expect(status).toBe(3)
    expect(stderr).toContain('cannot be written')
    expect(readdirSync(place)).toEqual(['a-file'])
  })

  test('of a station without gear there is nothing to print', () => {
    expect(bayboard(['print', 'label', '--all'], { station: emptyStation() })).toMatchObject({
      status: 1,
      stderr: 'bayboard: No element is like that, so there is no label to make.\n',
    })
  })
})
