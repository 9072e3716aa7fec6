// Element records, inspections and care slips on paper: all that their data hold, inside the margins, and never a blank item.
import { describe, expect, test } from 'vitest'
import type { EventOf } from '../../src/domain/events.ts'
import { careSlipOf } from '../../src/exports/care-slip.ts'
import { followElements } from '../../src/exports/element-record.ts'
import { followInspections } from '../../src/exports/inspection-record.ts'
import { ITEMS } from '../../src/exports/record-shape.ts'
import { instant, type Recorder } from '../exports/recorder.ts'
import { fullTour } from '../exports/tours.ts'
import { longHouse } from './long-house.ts'
import { PAPER_NAMES, printed } from './printed.ts'
import { misplaced, readPdf, squeezed, wordsOf } from './read-pdf.ts'

const MARGIN = 12 * (72 / 25.4)
const made = ({ events, head }: Recorder) => ({
  at: instant('26 08:00'),
  head: { seq: events.length, hash: head },
})

function recordsOf(log: Recorder) {
  const walk = followElements([...log.state.elements.keys()])
  log.events.forEach(walk.see)
  return walk.end(log.state, made(log))
}
function inspectionsOf(log: Recorder) {
  const walk = followInspections([...log.state.elements.keys()], null)
  log.events.forEach(walk.see)
  return walk.end(log.state, made(log))
}
function slipOf(log: Recorder, elements: string[]) {
  log.record('24 22:00', 'MEMBER-1', {
    do: 'send-away',
    elements,
    to: 'The Wash House '.repeat(9).trim(),
    for: 'advanced-cleaning',
  })
  log.record('24 22:05', 'MEMBER-1', {
    do: 'hold',
    element: elements[0],
    reason: 'worn by the injured member',
  })
  const sent = log.events.findLast(
    (each) => each.type === 'elements-sent-away',
  ) as EventOf<'elements-sent-away'>
  return careSlipOf(log.state, sent, made(log))
}

describe.each(PAPER_NAMES)('on %s', (paper) => {
  test('the record of every element holds all eleven items and every line of them', async () => {
    const records = recordsOf(fullTour())
    const pages = await readPdf(await printed({ print: 'element-record', records }, paper))
    for (const page of pages) expect(misplaced(page, MARGIN)).toEqual([])
    const words = wordsOf(pages)
    const said = records.elements.flatMap(({ id, now, items, also }) => [
      id,
      now,
      ...[...items.flatMap((each) => each.lines), ...also].flatMap((each) => [
        each.withdrawn ? `Withdrawn: ${each.words}` : each.words,
        ...each.amended.map((one) => one.words),
      ]),
    ])
    expect(said.length).toBeGreaterThan(100)
    expect(said.filter((each) => !words.includes(squeezed(each)))).toEqual([])
    for (const title of ITEMS) expect(words.split(squeezed(title)).length - 1).toBe(records.elements.length)
    const blanks = records.elements.flatMap((each) => each.items.filter((one) => !one.onRecord))
    expect(words.split('notonrecord').length - 1).toBeGreaterThanOrEqual(blanks.length)
  })

  test('the inspections of breathing apparatus name serial or id, day, inspector, findings and remedy', async () => {
    const record = inspectionsOf(longHouse(6))
    const pages = await readPdf(await printed({ print: 'inspection', record }, paper))
    for (const page of pages) expect(misplaced(page, MARGIN)).toEqual([])
    const words = wordsOf(pages)
    expect(words).toContain(squeezed('the five items of 29 CFR 1910.134(h)(3)(iv)'))
    const looked = record.elements.filter((each) => each.inspections.length)
    expect(looked).toHaveLength(18)
    for (const { id, word, inspections } of looked) {
      expect(words).toContain(squeezed(`${word} ${id}, serial number not on record`))
      for (const { inspector, how } of inspections) expect(words).toContain(squeezed(`${inspector}${how}`))
    }
  })

  test('a care slip of long names asks for each element but the one that is held', async () => {
    const log = longHouse(4)
    const ids = [...log.state.elements.values()]
      .filter((each) => each.kind.startsWith('coat'))
      .map((each) => each.id)
    const slip = slipOf(log, ids)
    const pages = await readPdf(await printed({ print: 'care-slip', slip }, paper))
    for (const page of pages) expect(misplaced(page, MARGIN)).toEqual([])
    const [asked, held] = wordsOf(pages).split(squeezed('■ Held as evidence'))
    expect(slip.elements.map((each) => each.id)).toEqual(ids.slice(1))
    for (const id of ids.slice(1)) expect(asked).toContain(id)
    expect(asked).not.toContain(ids[0])
    expect(held).toContain(ids[0])
  })
})
