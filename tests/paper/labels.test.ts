// Gear labels and tags on sheets: every code is read back by a decoder that did not make it, and every word stays on its label.
import { describe, expect, test } from 'vitest'
import { MM } from '../../src/paper/press.ts'
import { bagTagsOf, labelsOf, outOfServiceTagsOf } from '../../src/exports/gear-tags.ts'
import { instant, type Recorder } from '../exports/recorder.ts'
import { fullTour, house } from '../exports/tours.ts'
import { PAPER_NAMES, printed } from './printed.ts'
import { part, readCode128, readQr } from './read-codes.ts'
import { canvas, misplaced, pictureOf, readPdf, squeezed, wordsOf, type Picture } from './read-pdf.ts'

const EDGE = 8 * MM
const GAP = 2 * MM
const made = ({ events, head }: Recorder) => ({
  at: instant('26 08:00'),
  head: { seq: events.length, hash: head },
})
const idsOf = (log: Recorder): string[] => [...log.state.elements.keys()]
const labels = (log: Recorder, ids = idsOf(log)) => labelsOf(log.state, ids, made(log))

/** A house with one element more, whose id is as long as an id can be. */
const LONGEST = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ-0123456789_.x'
function longIdHouse(): Recorder {
  const log = house()
  log.record('02 08:00', 'setup', {
    do: 'add-element',
    element: { id: LONGEST, kind: 'helmet', maker: 'W'.repeat(90) },
  })
  return log
}

/** The label at a place on its sheet, cut out of the picture. */
function labelAt(
  sheet: Picture,
  place: number,
  grid: { columns: number; rows: number },
  scale: number,
  gap = GAP,
): Picture {
  const [across, down] = [place % grid.columns, Math.floor(place / grid.columns)]
  const wide = (sheet.width / scale - 2 * EDGE - (grid.columns - 1) * gap) / grid.columns
  const high = (sheet.height / scale - 2 * EDGE - (grid.rows - 1) * gap) / grid.rows
  const dots = (points: number) => Math.round(points * scale)
  const corner = [EDGE + across * (wide + gap), EDGE + down * (high + gap)] as const
  return part(sheet, dots(corner[0]) + 2, dots(corner[1]) + 2, dots(wide) - 6, dots(high) - 6)
}

describe.runIf(canvas)('codes read back (this needs the optional drawing library @napi-rs/canvas)', () => {
  const scale = 3
  test.each([
    ['code128', 3, 8, readCode128],
    ['qr', 4, 10, readQr],
    ['code128', 1, 4, readCode128],
  ] as const)('%s labels, %i across and %i down, say each its own id', async (code, columns, rows, read) => {
    const log = house()
    const grid = { columns, rows, skip: 1, code }
    const ids = idsOf(log).slice(0, columns * rows - 1)
    const bytes = await printed({ print: 'labels', labels: labels(log, ids), grid })
    const sheet = await pictureOf(bytes, 1, scale)
    const found = ids.map((_, at) => read(labelAt(sheet, at + 1, grid, scale)))
    expect(found).toEqual(ids)
    expect(read(labelAt(sheet, 0, grid, scale))).toBeUndefined()
  })

  test('an id too long for bars that a hand scanner reads gets a square code', async () => {
    const log = longIdHouse()
    const grid = { columns: 3, rows: 8, skip: 0, code: 'code128' as const }
    const sheet = await pictureOf(
      await printed({ print: 'labels', labels: labels(log, [LONGEST]), grid }),
      1,
      4,
    )
    const label = labelAt(sheet, 0, grid, 4)
    expect(readQr(label)).toBe(LONGEST)
    expect(readCode128(label)).toBeUndefined()
  })

  test('and bars where the label is wide enough', async () => {
    const log = longIdHouse()
    const grid = { columns: 1, rows: 8, skip: 0, code: 'code128' as const }
    const sheet = await pictureOf(
      await printed({ print: 'labels', labels: labels(log, [LONGEST]), grid }),
      1,
      4,
    )
    expect(readCode128(labelAt(sheet, 0, grid, 4))).toBe(LONGEST)
  })

  test('an out-of-service tag and a bag tag say their element', async () => {
    const log = fullTour()
    const ids = idsOf(log)
    const two = { columns: 2, rows: 2 }
    const tags = outOfServiceTagsOf(log.state, ids, made(log))
    const sheet = await pictureOf(await printed({ print: 'out-of-service-tags', tags }), 1, scale)
    const found = tags.elements.map((_, at) => readCode128(labelAt(sheet, at, two, scale, 4 * MM)))
    expect(found).toEqual(['R-1', 'H-1', 'F-1'])
    const bags = bagTagsOf(log.state, ids, made(log))
    const bagSheet = await pictureOf(await printed({ print: 'bag-tags', tags: bags }), 1, scale)
    expect(readCode128(labelAt(bagSheet, 0, two, scale, 4 * MM))).toBe(bags.elements[0]!.id)
  })
})

describe.each(PAPER_NAMES)('on %s', (paper) => {
  test.each([
    [1, 1],
    [3, 8],
    [6, 18],
  ])(
    'labels %i across and %i down name id, kind and the mark, and nothing leaves the sheet',
    async (columns, rows) => {
      const log = longIdHouse()
      const grid = { columns, rows, skip: 0, code: 'code128' as const }
      const pages = await readPdf(await printed({ print: 'labels', labels: labels(log), grid }, paper))
      expect(pages.length).toBe(Math.ceil(idsOf(log).length / (columns * rows)))
      for (const page of pages) expect(misplaced(page, EDGE)).toEqual([])
      const words = wordsOf(pages)
      for (const id of idsOf(log)) expect(words).toContain(id)
      expect(words).toContain('DEMONSTRATION')
      expect(words).toContain('helmet')
    },
  )

  test('tags with many and long reasons stay on their tag and say that there is more', async () => {
    const log = house()
    for (let at = 0; at < 9; at++) {
      const reason = `${at} ${'a long tear with the moisture barrier showing through '.repeat(12)}`.trim()
      log.record('24 06:00', 'M-104', { do: 'tag', element: 'C-1', reason, matter: 'safety' })
    }
    const tags = outOfServiceTagsOf(log.state, ['C-1'], made(log))
    const pages = await readPdf(await printed({ print: 'out-of-service-tags', tags }, paper))
    expect(misplaced(pages[0]!, EDGE)).toEqual([])
    expect(wordsOf(pages)).toContain(squeezed('More is on record: bayboard history C-1'))
  })
})

describe('what the tags say', () => {
  test('an out-of-service tag names each reason with its matter, who tagged it and when', async () => {
    const log = fullTour()
    const tags = outOfServiceTagsOf(log.state, idsOf(log), made(log))
    const words = wordsOf(await readPdf(await printed({ print: 'out-of-service-tags', tags })))
    for (const said of [
      '■ OUT OF SERVICE',
      'H-1',
      'cracked shell (safety)',
      'Tagged 2026-11-24 06:40 by A. Varga (M-104)',
      'failed advanced cleaning (safety)',
    ])
      expect(words).toContain(squeezed(said))
    expect(words).not.toContain('S-900')
  })

  test('a bag tag names the exposure, its incident and the care that the rules ask for', async () => {
    const log = fullTour()
    const tags = bagTagsOf(log.state, idsOf(log), made(log))
    const boots = tags.elements.find((each) => each.id === 'P-1' || each.id === 'T-1')!
    expect(boots.exposures).toEqual([
      {
        words: 'Exposed to products of combustion on 24 Nov 2026',
        incident: '26-0421',
        on: '2026-11-24',
        careNeeded: expect.arrayContaining(['advanced cleaning']),
      },
    ])
    const words = wordsOf(await readPdf(await printed({ print: 'bag-tags', tags })))
    expect(words).toContain(squeezed('Incident: 26-0421. Care needed: advanced cleaning'))
  })

  test('gear held as evidence is never said to need cleaning, whatever it was exposed to', async () => {
    const log = fullTour()
    const tags = bagTagsOf(log.state, ['N-1'], made(log))
    expect(tags.elements).toMatchObject([{ id: 'N-1', held: { reason: 'injury on 22 Nov' } }])
    expect(tags.elements[0]!.exposures).toHaveLength(1)
    const words = wordsOf(await readPdf(await printed({ print: 'bag-tags', tags })))
    expect(words).toContain(squeezed('HELD AS EVIDENCE: DO NOT CLEAN'))
    expect(words).not.toContain(squeezed('Care needed'))
    expect(words).not.toContain(squeezed('Received for cleaning'))
  })

  test('what was cleaned since gets no bag tag', () => {
    const log = house()
    log.record('24 09:00', 'M-104', {
      do: 'record-exposure',
      exposure: 'products-of-combustion',
      elements: ['T-1'],
    })
    const exposed = bagTagsOf(log.state, ['T-1'], made(log))
    const care = { do: 'record-care', care: 'advanced-cleaning', result: 'serviceable' }
    log.record('25 09:00', 'M-104', { ...care, element: 'T-1', on: '2026-11-25' })
    expect([exposed.elements.length, bagTagsOf(log.state, ['T-1'], made(log)).elements.length]).toEqual([
      1, 0,
    ])
  })
})
