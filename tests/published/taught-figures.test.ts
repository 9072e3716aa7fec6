// Every published figure that a card teaches, as the source named beside it reports it; the standards themselves were not read.
import { describe, expect, it } from 'vitest'
import { factsOf, KINDS, type Kind } from '../../src/domain/kinds.ts'
import { isSizeOf } from '../../src/domain/size.ts'

const sayings = (kind: Kind) => [...factsOf(kind).look, ...factsOf(kind).cannot]

describe('what a card teaches with a figure', () => {
  it.each<[Kind, source: RegExp, figures: RegExp]>([
    // Coat and trousers overlap, standing with arms up and bent forward: Fire Engineering on fit.
    ['coat-shell', /^Fire Engineering.*why is fit important/, /at least 2 inches.*arms up and bent forward/],
    ['trouser-shell', /^Fire Engineering.*why is fit important/, /at least 2 inches/],
    // Drag rescue device since the 2007 edition: the fire service press.
    ['drag-rescue-device', /drag device remain mandatory/, /before 2007 may be without one/],
    // PASS: pre-alarm at 20 s without motion, alarm at 30 s: NFPA 1982 test table, as reported.
    ['air-pack', /^NFPA 1982 test table, as reported$/, /warns at 20 seconds and sounds in full at 30\./],
    // Low-air alarm 25% to the 2007 edition, 33% from 2013: NFPA 1981, as reported.
    [
      'air-pack',
      /^NFPA 1981, as reported$/,
      /to the 2007 edition sound at 25%, from the 2013 edition at 33%/,
    ],
    ['cylinder', /^29 CFR 1910\.134\(h\)\(3\)\(iii\)/, /at 90% of the rated pressure or below/],
  ])('%s, by %s', (kind, source, figures) => {
    const found = sayings(kind).filter((each) => source.test(each.source ?? ''))
    expect(found.filter((each) => figures.test(each.says))).toHaveLength(1)
  })

  it('is never without its source', () => {
    const bare = KINDS.flatMap(sayings).filter((each) => /\d/.test(each.says) && !each.source)
    expect(bare.map((each) => each.says)).toEqual([])
  })
})

describe('a glove size', () => {
  // Two digits for the length of the index finger in millimetres, 64 to 82, from the 2018 edition: published range; N and W from memory.
  it.each([
    ['63', false],
    ['64', true],
    ['64N', true],
    ['82', true],
    ['82W', true],
    ['83', false],
    ['XXS', true],
    ['XXL', true],
    ['XXXL', false],
  ])('%s is read as one: %s', (size, is) => {
    expect(isSizeOf('gloves', size)).toBe(is)
  })
})
