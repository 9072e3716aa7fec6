// Data as odd as the books take them: nothing is lost on paper, nothing leaves its margins, and every page says what it belongs to.
import { describe, expect, test } from 'vitest'
import { INVENTED } from '../../src/domain/signs.ts'
import { followElements } from '../../src/exports/element-record.ts'
import { bagTagsOf, labelsOf, outOfServiceTagsOf } from '../../src/exports/gear-tags.ts'
import { MM } from '../../src/paper/press.ts'
import { madeOf } from '../exports/made.ts'
import { instant, type Recorder } from '../exports/recorder.ts'
import { house } from '../exports/tours.ts'
import { longHouse } from './long-house.ts'
import { PAPER_NAMES, printed } from './printed.ts'
import { readQr } from './read-codes.ts'
import { canvas, framesOf, misplaced, pictureOf, readPdf, squeezed, wordsOf } from './read-pdf.ts'

const made = ({ events, head }: Recorder) => ({
  at: instant('26 08:00'),
  head: { seq: events.length, hash: head },
})
const LONG_NAME = 'The Station at the Corner of Old Brickmakers Lane '.repeat(6).trim()
/** As long and as wide as an id can be. */
const WIDEST = 'W'.repeat(40)

function widestHelmet(): Recorder {
  const log = house({ name: LONG_NAME })
  const element = { id: WIDEST, kind: 'helmet', maker: 'W'.repeat(600), size: 'e\u0301 👩‍🚒 שלום' }
  log.record('02 08:00', 'setup', { do: 'add-element', element })
  return log
}
const widestLabel = () => labelsOf(widestHelmet().state, [WIDEST], made(widestHelmet()))
/** As many labels as the command line lets one ask for. */
const SMALLEST = { columns: 6, rows: 18, skip: 0, code: 'code128' as const }

describe.each(PAPER_NAMES)('on %s', (paper) => {
  test('the smallest label says the widest id whole', async () => {
    const pages = await readPdf(
      await printed({ print: 'labels', labels: widestLabel(), grid: SMALLEST }, paper),
    )
    expect(wordsOf(pages)).toContain(WIDEST)
    expect(misplaced(pages[0]!, 8 * MM)).toEqual([])
  })

  test.runIf(canvas)('and has a code that a reader takes', async () => {
    const bytes = await printed({ print: 'labels', labels: widestLabel(), grid: SMALLEST }, paper)
    expect(readQr(await pictureOf(bytes, 1, 6))).toBe(WIDEST)
  })

  test('a page of a station with a long name keeps its number', async () => {
    const log = house({ name: LONG_NAME })
    log.record('24 07:00', 'M-104', {
      do: 'open-tour',
      tour: 'T',
      platoon: 'B',
      officer: 'M-104',
      on: '2026-11-24',
    })
    const pages = await readPdf(await printed({ print: 'readiness-log', log: madeOf(log) }, paper))
    pages.forEach((page, at) => {
      expect(wordsOf([page])).toContain(squeezed(`Page ${at + 1} of ${pages.length}.`))
      expect(misplaced(page, 12 * MM)).toEqual([])
    })
  })

  test('a tag of a station with a long name is still marked as invented, and says when it was printed', async () => {
    const log = widestHelmet()
    log.record('24 06:00', 'M-104', {
      do: 'tag',
      element: WIDEST,
      reason: 'torn '.repeat(300),
      matter: 'safety',
    })
    const tags = outOfServiceTagsOf(log.state, [WIDEST], made(log))
    const pages = await readPdf(await printed({ print: 'out-of-service-tags', tags }, paper))
    expect(wordsOf(pages)).toContain(squeezed(INVENTED))
    expect(wordsOf(pages)).toContain(squeezed('Printed 2026-11-26 08:00, The Station at the Corner'))
    expect(misplaced(pages[0]!, 8 * MM)).toEqual([])
  })
})

test('a list of those who may not ride that goes on overleaf has no box around part of it', async () => {
  const { board, ...rest } = madeOf(longHouse(4))
  const log = { ...rest, findings: [], entries: [], seatings: [] }
  const seats = board.rigs[0]!.seats.map((each) => ({ ...each, gear: [] }))
  const boxesWith = async (times: number): Promise<number> => {
    const rigs = Array.from({ length: times }, () => ({ ...board.rigs[0]!, seats }))
    const bytes = await printed({ print: 'readiness-log', log: { ...log, board: { ...board, rigs } } })
    return (await framesOf(bytes)).length
  }
  expect(await boxesWith(1)).toBe(1)
  // Far enough overleaf for its end to stand lower on its page than its beginning did.
  expect(await boxesWith(16)).toBe(0)
})

test('a record that goes on overleaf says there whose it is, and which item', async () => {
  const log = house()
  for (let at = 0; at < 90; at++) {
    const care = { do: 'record-care', care: 'advanced-cleaning', result: 'serviceable', on: '2026-11-02' }
    log.record('02 08:00', 'M-104', { ...care, element: 'C-1', note: `look number ${at}` })
  }
  const walk = followElements(['C-1'])
  log.events.forEach(walk.see)
  const records = walk.end(log.state, made(log))
  const pages = await readPdf(await printed({ print: 'element-record', records }))
  const long = records.elements[0]!.items.find((each) => each.lines.length >= 90)!
  expect(pages.length).toBeGreaterThan(2)
  const words = wordsOf([pages[1]!])
  expect(words).toContain(squeezed('C-1, coat shell, continued'))
  expect(words).toContain(squeezed(`${long.item}. ${long.title}`))
  expect(wordsOf(pages).split('looknumber')).toHaveLength(91)
})

test('gear that is only wet is not said to be contaminated', async () => {
  const log = house()
  const wet = { do: 'record-exposure', exposure: 'water', elements: ['T-1'] }
  log.record('24 09:00', 'M-104', wet)
  const bagOf = async () => {
    const tags = bagTagsOf(log.state, ['T-1'], made(log))
    return wordsOf(await readPdf(await printed({ print: 'bag-tags', tags })))
  }
  expect(await bagOf()).toContain(squeezed('■ WET GEAR'))
  log.record('24 09:30', 'M-104', { ...wet, exposure: 'body-fluids' })
  expect(await bagOf()).toContain(squeezed('■ CONTAMINATED GEAR'))
})
