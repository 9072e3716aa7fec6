// Tests of the readiness log on paper: its order, its width and its signs.
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { asText } from '../../src/exports/text.ts'
import { widthOf, wrap } from '../../src/exports/wrap.ts'
import { madeOf, unwrapped } from './made.ts'
import { fullTour, house, smallTour } from './tours.ts'

const golden = readFileSync(new URL('small-tour.txt', import.meta.url), 'utf8')

const withoutSpaces = (text: string): string => text.replace(/\s|-{2,}/g, '')

describe('paper', () => {
  test('a small tour reads as small-tour.txt, with who may not ride before all else', () => {
    expect(asText(madeOf(smallTour()), { unicode: true })).toBe(golden)
  })

  test('without Unicode the signs are ASCII and the words are the same', () => {
    const text = asText(madeOf(smallTour()), { unicode: false })
    expect(text).toMatch(/^[\n\x20-\x7e]*$/)
    expect(text).toBe(golden.replaceAll('■', '#').replaceAll('–', '-'))
  })

  test.each([40, 78, 120])('no line is wider than %i columns and nothing is lost by it', (width) => {
    const log = madeOf(fullTour())
    const text = asText(log, { width, unicode: true })
    const wide = text.split('\n').filter((line) => widthOf(line) > width)
    expect(wide).toEqual([])
    expect(withoutSpaces(text)).toBe(withoutSpaces(asText(log, { width: 5000, unicode: true })))
  })

  test('no line ends with a space', () => {
    expect(asText(madeOf(fullTour()), { unicode: true })).not.toMatch(/ $/m)
  })

  test('an open tour says that the log is not the last word on it', () => {
    const log = house()
    const tour = { tour: 'T-1', platoon: 'B', officer: 'M-104', on: '2026-11-24' }
    log.record('24 07:00', 'M-104', { do: 'open-tour', ...tour })
    const text = asText(madeOf(log), { unicode: true })
    expect(unwrapped(text)).toContain('Still open: this log is not the last word on it.')
    expect(text).toContain('Riding positions now')
    expect(unwrapped(text)).toContain('Roll call: nobody is seated.')
  })

  test('an answer at roll call is not told of gear that has changed since', () => {
    const log = madeOf(fullTour())
    const text = unwrapped(asText(log, { unicode: true }))
    expect(text).toContain('Gear has changed since they answered: A. Varga.')
    expect(text).toContain('E6-1 Officer, A. Varga (M-104), roll call answered, gear changed since')
    expect(unwrapped(asText(madeOf(smallTour()), { unicode: true }))).not.toContain('changed since')
  })

  test('looser rules are named with their reasons', () => {
    expect(unwrapped(asText(madeOf(fullTour()), { unicode: true }))).toContain(
      'Looser than the published base: advanced cleaning interval: limit 8 months, not 6 months (one washer for two stations).',
    )
  })
})

describe('wrapping', () => {
  test('a line that just fits is not broken, and one column more breaks it', () => {
    expect(wrap('torn seam', 9)).toEqual(['torn seam'])
    expect(wrap('torn seams', 9)).toEqual(['torn', 'seams'])
  })

  test('a word that no line can hold is cut and nothing of it is lost', () => {
    expect(wrap('abcdefghijklmnopqrstuvwxyz', 14, 2, 4)).toEqual([
      '  abcdefghij',
      '    klmnopqrst',
      '    uvwxyz',
    ])
  })

  test('a letter with its accent is one column and a wide letter is two', () => {
    expect([widthOf('e\u0301'), widthOf('火'), widthOf('ab')]).toEqual([1, 2, 2])
    expect(wrap('火火火 火火', 8)).toEqual(['火火火', '火火'])
  })
})
