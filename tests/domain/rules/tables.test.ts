// Runs every line of every rule's table, and walks the base policy for rules that have no lines.
import { describe, expect, it } from 'vitest'
import { isFit, sayVerdict } from '../../../src/domain/rules/verdict.ts'
import { CASES } from './cases.ts'
import { BASE, ruleOf } from './judging.ts'

describe.each(BASE.rules.map((rule) => rule.id))('the rule %s', (id) => {
  const cases = CASES.filter((each) => each.rule === id)

  it.each(cases.map((each) => [`${each.side}: ${each.title}`, each.state, each] as const))(
    '%s is %s',
    (_title, state, each) => {
      const verdict = each.judge()
      const { matter = verdict?.matter, on = verdict?.on } = each
      expect([verdict?.state ?? 'none', verdict?.matter, verdict?.on]).toEqual([state, matter, on])
    },
  )

  it('has a case within it, a case past it and one with nothing on record', () => {
    expect([...new Set(cases.map((each) => each.side))].toSorted()).toEqual(['nothing', 'past', 'within'])
  })

  it('keeps the fit and the unfit on their own sides', () => {
    const within = cases.filter((each) => each.side === 'within').map((each) => each.state)
    const past = cases.filter((each) => each.side === 'past').map((each) => each.state)
    expect(within.filter((state) => state !== 'none' && !isFit(state))).toEqual([])
    // A rule whose consequence is due warns and grounds nobody.
    const consequence = ruleOf(id).past
    expect(past.filter((state) => state === 'none' || (isFit(state) && state !== consequence))).toEqual([])
    expect(past).toContain(consequence)
  })
})

describe('every verdict of every case', () => {
  const verdictsOf = () => CASES.flatMap((each) => each.judge() ?? [])

  it('names a rule of the policy and says a whole sentence', () => {
    const ids = BASE.rules.map((rule) => rule.id)
    for (const verdict of verdictsOf()) {
      expect(ids).toContain(verdict.rule)
      expect(sayVerdict(verdict)).toMatch(/^[A-Z].*[^.]\.$/)
      expect(sayVerdict(verdict)).not.toMatch(/ {2}|undefined|null|NaN|: \./)
    }
  })

  it('carries the day it counts from whenever it carries the day its limit falls', () => {
    const dated = verdictsOf().filter((each) => each.on !== null)
    expect(dated.length).toBeGreaterThan(50)
    for (const { on, since } of dated) expect(since!.on < on!).toBe(true)
  })
})
