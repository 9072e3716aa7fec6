// The published base policy and the catalogue: their shape, their sources, and that they fit each other.
import { z } from 'zod'
import { describe, expect, it } from 'vitest'
import catalogue from '../../data/catalogue.json' with { type: 'json' }
import base2020 from '../../data/policies/nfpa-1851-2020.json' with { type: 'json' }
import {
  CARES,
  factsOf,
  type Kind,
  KINDS,
  LABEL_FIELDS,
  MEASURES,
  pointsOf,
  wordOf,
} from '../../src/domain/kinds.ts'
import { isSizeOf } from '../../src/domain/size.ts'
import { BASES, DEFAULT_BASE } from '../../src/domain/policy/bases.ts'
import { baseShape } from '../../src/domain/policy/shape.ts'
import { BASE } from './rules/judging.ts'

describe('the published base', () => {
  it('is of the shape of a base, word for word', () => {
    expect(baseShape.parse(base2020)).toEqual(base2020)
    expect(BASES.get(DEFAULT_BASE)!.id).toBe('nfpa-1851-2020')
  })

  it('gives each rule an id of its own, a source and a reason', () => {
    const ids = BASE.rules.map((rule) => rule.id)
    expect(new Set(ids).size).toBe(ids.length)
    for (const rule of BASE.rules) {
      expect(rule.source.document.length).toBeGreaterThan(5)
      expect(rule.why).toMatch(/^[A-Z].*\.$/)
    }
  })

  it('gives every rule that counts days a limit', () => {
    const counting = BASE.rules.filter((rule) => 'since' in rule.watch)
    expect(counting.length).toBeGreaterThan(5)
    expect(counting.filter((rule) => rule.limit === undefined)).toEqual([])
  })

  it('asks only for cares that can be recorded for the kinds it is about', () => {
    const impossible = BASE.rules.flatMap((rule) =>
      rule.kinds.filter((kind) => {
        const { cares } = factsOf(kind)
        if ('exposure' in rule.watch) return !rule.watch.clearedBy.some((care) => cares.includes(care))
        return 'care' in rule.watch && !cares.includes(rule.watch.care)
      }),
    )
    expect(impossible).toEqual([])
  })

  it('asks for the size only of kinds that a member is measured for', () => {
    const sized = BASE.rules.filter((rule) => 'fits' in rule.watch).flatMap((rule) => rule.kinds)
    expect(sized.toSorted()).toEqual(KINDS.filter((kind) => factsOf(kind).measure).toSorted())
  })

  it('says that it is provisional while any figure of it is from memory', () => {
    expect(
      BASE.rules.filter((rule) => rule.source.standing === 'from memory').map((rule) => rule.id),
    ).toEqual(['complete-liner-inspection-interval'])
    expect(BASE.provisional).toContain('complete liner inspection')
  })

  // firerescue1.com; wscff.org: what is done at the scene is not cleaning and does not make gear fit for reuse.
  it('has no rule that a preliminary exposure reduction satisfies, though any gear can have one', () => {
    const care = 'preliminary-exposure-reduction'
    expect(CARES).toContain(care)
    expect(KINDS.filter((kind) => !factsOf(kind).cares.includes(care))).toEqual([])
    for (const { rules } of BASES.values()) {
      expect(rules.filter((rule) => JSON.stringify(rule.watch).includes(care))).toEqual([])
    }
  })
})

describe('the catalogue', () => {
  const sentence = z.string().regex(/^[A-Z].*\.$/)
  const saying = z.strictObject({ says: sentence, source: z.string().min(1).optional() })
  const shape = z.strictObject({
    everywhere: z.array(z.string().min(1)).min(1),
    label: z.array(z.string().min(1)).min(1),
    // So long that a point and its words fit on a line of 80 columns; no figure, since none of it has a source.
    pointWords: z.record(z.string(), z.string().regex(/^\D{1,30}$/)),
    kinds: z.strictObject(
      Object.fromEntries(
        KINDS.map((kind) => [
          kind,
          z.strictObject({
            word: z.string().regex(/^[a-z ]+$/),
            mark: z.string().regex(/^\S{1,2}$/),
            held: z.enum(['member', 'seat']),
            measure: z.enum(MEASURES).optional(),
            for: sentence,
            parts: z.array(z.strictObject({ name: z.string().min(1), for: z.string().min(1) })).min(1),
            look: z.array(saying).min(2),
            cannot: z.array(saying).min(2),
            sizes: z.strictObject({ as: z.string().min(1), pattern: z.string().startsWith('^') }).optional(),
            cares: z.array(z.enum(CARES)).min(1),
            points: z.array(z.string().min(1)).min(1),
          }),
        ]),
      ),
    ),
  })

  it('describes exactly the kinds there are, with cares and measures that are known', () => {
    expect(shape.parse(catalogue)).toEqual(catalogue)
  })

  it('teaches no figure without saying where it is published', () => {
    for (const kind of KINDS) {
      const { for: use, parts, look, cannot } = factsOf(kind)
      const unsourced = [...look, ...cannot].flatMap(({ says, source }) => (source ? [] : says))
      const said = [use, ...parts.map((part) => part.for), ...unsourced]
      expect(said.filter((each) => /\d/.test(each))).toEqual([])
    }
  })

  it('has plain words for every point, and for nothing else', () => {
    const points = new Set(KINDS.flatMap(pointsOf))
    expect(Object.keys(catalogue.pointWords).toSorted()).toEqual([...points].toSorted())
  })

  it('has no word, mark, care or point twice', () => {
    expect(new Set(KINDS.map(wordOf)).size).toBe(KINDS.length)
    expect(new Set(KINDS.map((kind) => factsOf(kind).mark)).size).toBe(KINDS.length)
    for (const kind of KINDS) {
      const { cares, points } = factsOf(kind)
      const all = [...cares, ...points, ...catalogue.everywhere]
      expect(all.filter((each, index) => all.indexOf(each) !== index)).toEqual([])
    }
  })
})

describe('the sizes of a kind', () => {
  // Coat chest x length and trousers waist x inseam: firehouse.com 10656648, as published. Gloves XXS to XXL, or from the
  // 2018 edition two digits of index-finger length, 64 to 82 mm, with N or W: range published, codes from memory. Boots in
  // whole and half sizes with widths: from memory.
  it.each<[Kind, string[], string[]]>([
    ['coat-shell', ['44x32', '44 X 32', '46x32x34', '44R', '44'], ['banana', '4432x', 'XL-ish', '']],
    ['trouser-shell', ['38x30', '38/30', '40x32.5'], ['38x', 'thirty']],
    ['gloves', ['76W', '64N', '82', 'XXS', 'xxl'], ['63W', '83W', '76Q', 'XXXL']],
    ['boots', ['11D', '10.5EE', '9'], ['11.7D', 'D11']],
    ['facepiece', ['S', 'm', 'L'], ['44x32']],
    ['helmet', ['anything: one size is worn by all', ''], []],
  ])('%s are read by pattern', (kind, sizes, others) => {
    for (const size of sizes) expect([size, isSizeOf(kind, size)]).toEqual([size, true])
    for (const size of others) expect([size, isSizeOf(kind, size)]).toEqual([size, false])
  })

  it('are told for every kind that a member is measured for', () => {
    expect(KINDS.filter((kind) => factsOf(kind).measure && !factsOf(kind).sizes)).toEqual([])
    expect(LABEL_FIELDS).toContain('month and year of manufacture')
  })
})
