// The readiness log on paper, read back by a library that did not write it and checked against the log's own data.
import { readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { beforeAll, describe, expect, test } from 'vitest'
import { CAUTIONS, INVENTED, SIGNS } from '../../src/domain/signs.ts'
import type { ReadinessLog } from '../../src/exports/readiness-log.ts'
import { SAY_REPLACED } from '../../src/paper/press.ts'
import { madeOf } from '../exports/made.ts'
import { fullTour, house, smallTour } from '../exports/tours.ts'
import { longHouse } from './long-house.ts'
import { FONTS, PAPER_NAMES, printed } from './printed.ts'
import { readQr } from './read-codes.ts'
import {
  canvas,
  linesOf,
  misplaced,
  pictureOf,
  readPdf,
  squeezed,
  titleOf,
  wordsOf,
  type ReadPage,
} from './read-pdf.ts'

const MARGIN = 12 * (72 / 25.4)
const onPaper = (log: ReadinessLog, paper: 'a4' | 'letter' = 'a4') =>
  printed({ print: 'readiness-log', log }, paper)

/** Everything that the log says, as a reader of the paper must find it. */
const saidBy = (log: ReadinessLog): string[] => [
  log.station.name,
  log.tour.id,
  log.board.headline,
  log.rollCall.words,
  ...log.board.rigs.flatMap(({ words, seats }) => [
    words,
    ...seats.flatMap((seat) => [
      seat.id,
      seat.position,
      seat.name,
      SIGNS[seat.state].symbol + SIGNS[seat.state].word,
      ...seat.reasons.map((each) => `${SIGNS[each.state].word} (${each.matter}): ${each.text}`),
      ...seat.loosened,
      ...seat.gear.flatMap((each) => [each.element ?? 'none', each.label]),
    ]),
  ]),
  ...log.findings.flatMap((each) => [each.words, ...each.done.map((one) => `#${one.seq}`)]),
  ...[...log.entries, ...log.laterAmendments].flatMap((each) => [
    `#${each.seq}`,
    each.words,
    ...each.details,
  ]),
  ...log.seatings.map((each) => each.words),
  ...log.openItems.map((each) => each.words),
  log.policy.name,
  log.policy.provisional ?? '',
  ...log.policy.looser,
  ...log.cautions,
  log.journal.head,
  log.journal.tourHead ?? '',
]

const TOURS: [string, ReadinessLog, pages: Record<'a4' | 'letter', number>][] = [
  ['a small tour', madeOf(smallTour()), { a4: 1, letter: 2 }],
  ['a tour in which everything happens', madeOf(fullTour()), { a4: 3, letter: 3 }],
  ['six seats with long names', madeOf(longHouse(6)), { a4: 5, letter: 5 }],
  ['sixteen seats with long names', madeOf(longHouse(16)), { a4: 11, letter: 11 }],
]

describe.each(TOURS)('%s', (_, log, count) => {
  const read = new Map<string, ReadPage[]>()
  beforeAll(async () => {
    for (const paper of PAPER_NAMES) read.set(paper, await readPdf(await onPaper(log, paper)))
  })

  test.each(PAPER_NAMES)('on %s takes as many pages as it has taken, none of them empty', (paper) => {
    const pages = read.get(paper)!
    expect(pages.length).toBe(count[paper])
    for (const { pieces } of pages) expect(pieces.length).toBeGreaterThan(5)
  })

  test.each(PAPER_NAMES)('on %s says all that the log holds', (paper) => {
    const words = wordsOf(read.get(paper)!)
    const missing = saidBy(log).filter((each) => !words.includes(squeezed(each)))
    expect(missing).toEqual([])
  })

  test.each(PAPER_NAMES)(
    'on %s stays inside its margins, and nothing is printed over anything else',
    (paper) => {
      for (const page of read.get(paper)!) expect(misplaced(page, MARGIN)).toEqual([])
    },
  )

  test('has its number, the count of pages and the mark of invented data on every page', () => {
    const pages = read.get('a4')!
    pages.forEach((page, at) => {
      const words = wordsOf([page])
      expect(words).toContain(squeezed(`Page ${at + 1} of ${pages.length}.`))
      expect(words.startsWith(squeezed(INVENTED)) || words.includes(squeezed(INVENTED))).toBe(true)
    })
  })
})

test('a whole tour reads as whole-tour.txt; with UPDATE_GOLDEN=1 that is rewritten, so read the difference', async () => {
  const pages = await readPdf(await onPaper(madeOf(smallTour())))
  const text = pages.map((page) => `${linesOf(page).join('\n')}\n`).join('\f\n')
  const file = new URL('whole-tour.txt', import.meta.url)
  if (process.env['UPDATE_GOLDEN'] === '1') writeFileSync(file, text)
  expect(text).toBe(readFileSync(file, 'utf8'))
})

test('a station of its own carries no mark', async () => {
  const pages = await readPdf(await onPaper(madeOf(smallTour({ invented: false }))))
  expect(wordsOf(pages)).not.toContain('invented')
})

test('the officers who hand over and take over sign at its end, under the cautions', async () => {
  const words = wordsOf(await readPdf(await onPaper(madeOf(smallTour()))))
  const signed = squeezed('Outgoing officer date and time A. Varga (M-104)')
  expect(words).toContain(signed)
  expect(words).toContain(squeezed('Incoming officer date and time C. Lindqvist (M-207)'))
  expect(words.indexOf(signed)).toBeGreaterThan(words.indexOf(squeezed(CAUTIONS[0]!)))
})

test('the same log gives the same bytes, and another log others', async () => {
  const log = madeOf(smallTour())
  const [one, again, other] = await Promise.all([onPaper(log), onPaper(log), onPaper(madeOf(fullTour()))])
  expect(one.equals(again)).toBe(true)
  expect(one.equals(other)).toBe(false)
  expect(await titleOf(one)).toBe('Readiness log of tour 2026-11-24-B, Larch Hill Station')
})

test('letters that the paper cannot print are shown as replaced, and it says so; the others stay', async () => {
  const log = house()
  log.record('02 08:00', 'setup', {
    do: 'add-member',
    member: { id: 'M-9', name: 'Łódź Ærø שלום 火 Ω', platoon: 'B' },
  })
  const tour = { tour: 'T-1', platoon: 'B', officer: 'M-9', on: '2026-11-24' }
  log.record('24 07:00', 'M-9', { do: 'open-tour', ...tour })
  const words = wordsOf(await readPdf(await onPaper(madeOf(log))))
  expect(words).toContain(squeezed('officer Łódź Ærø \ufffd\ufffd\ufffd\ufffd \ufffd Ω (M-9)'))
  expect(words).toContain(squeezed(SAY_REPLACED))
  expect(wordsOf(await readPdf(await onPaper(madeOf(smallTour()))))).not.toContain(squeezed(SAY_REPLACED))
})

test.runIf(canvas)(
  'the square code says how long the journal was and the hash of its last line',
  async () => {
    const log = madeOf(smallTour())
    const { data, width, height } = await pictureOf(await onPaper(log), 1, 3)
    expect(readQr({ data, width, height })).toBe(
      `Bayboard readiness log, tour 2026-11-24-B\n${log.journal.length} ${log.journal.head}`,
    )
  },
)

test('its letters are those that the maker of the font publishes, with the licence beside them', () => {
  const published = (name: string) =>
    readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/${name}`))
  expect(published('ttf/DejaVuSansCondensed.ttf').equals(FONTS.regular)).toBe(true)
  expect(published('ttf/DejaVuSansCondensed-Bold.ttf').equals(FONTS.bold)).toBe(true)
  const licence = readFileSync(new URL('../../data/fonts/LICENSE', import.meta.url))
  expect(published('LICENSE').equals(licence)).toBe(true)
})
