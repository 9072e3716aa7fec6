// Rules that count days: service life from the label, intervals from the newest care, the fit test's year.
import { plain } from '../kinds.ts'
import type { Rule } from '../policy/shape.ts'
import type { CareRecord, Element } from '../state.ts'
import {
  addDays,
  addDuration,
  firstDay,
  sayDate,
  sayDuration,
  type Duration,
  type LocalDate,
} from '../time.ts'
import { verdict, type Judge, type Setting, type Verdict, type Wearer } from './verdict.ts'

/**
 * @param since the day it counts from and what happened then
 * @param falls the day the limit falls
 * @param lastGood the last day on which it may still be worn
 */
function judgeDay(
  rule: Rule,
  element: Element,
  setting: Setting,
  what: string,
  days: { since: { on: LocalDate; what: string }; falls: LocalDate; lastGood: LocalDate },
): Verdict {
  const { since, falls, lastGood } = days
  const more = { on: falls, since }
  if (setting.today > lastGood)
    return verdict(rule, element, rule.past, `${what} ended on ${sayDate(lastGood)}`, more)
  if (setting.until > lastGood) {
    return verdict(rule, element, 'due', `${what} ends during this tour, on ${sayDate(lastGood)}`, more)
  }
  if (rule.warn && addDuration(setting.today, rule.warn) >= falls) {
    return verdict(rule, element, 'due', `${what} ends on ${sayDate(lastGood)}`, more)
  }
  return verdict(rule, element, 'ready', `${what} runs to ${sayDate(lastGood)}`, more)
}

/** A limit that depends on a cylinder's construction; undefined when this construction has none. */
function limitFor(rule: Rule, element: Element): Duration | undefined | 'unknown' {
  if (typeof rule.limit !== 'object') return rule.limit
  return element.construction === undefined ? 'unknown' : rule.limit[element.construction]
}

const unproven = (rule: Rule, element: Element, says: string): Verdict =>
  verdict(rule, element, 'unproven', says)

/**
 * Service life. A label gives a month only: it counts from that month's first day, and the element is not fit from
 * the day the limit falls. Source: the ten-year rule as public pages report it; the safe reading of a month label.
 */
export const judgeLife: Judge = (rule, element, setting) => {
  const limit = limitFor(rule, element)
  if (limit === 'unknown')
    return unproven(rule, element, 'its construction is not known, so neither is its life')
  if (limit === undefined) return undefined
  if (!element.made) return unproven(rule, element, 'it has no date of manufacture')
  const from = firstDay(element.made)
  const falls = addDuration(from, limit)
  return judgeDay(rule, element, setting, `${sayDuration(limit)} from manufacture`, {
    since: { on: from, what: `made ${element.made}` },
    falls,
    lastGood: addDays(falls, -1),
  })
}

/**
 * The newest care of a kind by the day it was done, whatever the order it was entered in. One that the element
 * failed starts no interval: lifting its tag must not stand for passing it.
 */
export const newestCare = (element: Element, care: CareRecord['care']): CareRecord | undefined =>
  element.cares.findLast((each) => each.care === care && each.result === 'serviceable')

/** An interval from the newest care; fit through the day the limit falls. */
export const judgeInterval: Judge = (rule, element, setting) => {
  if (!('since' in rule.watch) || rule.watch.since !== 'care') return undefined
  const { care, orElse } = rule.watch
  const limit = limitFor(rule, element)
  if (limit === 'unknown')
    return unproven(rule, element, `its construction is not known, so neither is its ${plain(care)}`)
  if (limit === undefined) return undefined
  const done = newestCare(element, care)
  if (done) {
    const falls = addDuration(done.on, limit)
    const since = { on: done.on, what: plain(care) }
    return judgeDay(rule, element, setting, `${sayDuration(limit)} from ${plain(care)}`, {
      since,
      falls,
      lastGood: falls,
    })
  }
  const first = rule.first ?? limit
  if (orElse === 'manufactured') {
    if (!element.made)
      return unproven(rule, element, `it has no ${plain(care)} on record and no date of manufacture`)
    const since = { on: firstDay(element.made), what: `made ${element.made}` }
    const falls = addDuration(since.on, first)
    return judgeDay(
      rule,
      element,
      setting,
      `first ${plain(care)} within ${sayDuration(first)} of manufacture`,
      {
        since,
        falls,
        lastGood: falls,
      },
    )
  }
  const began = orElse === 'issued' ? (element.inService ?? element.issuedOn) : undefined
  if (began) {
    const falls = addDuration(began, first)
    return judgeDay(rule, element, setting, `first ${plain(care)} within ${sayDuration(first)} of issue`, {
      since: { on: began, what: 'in service' },
      falls,
      lastGood: falls,
    })
  }
  // Stock that was never issued has worn nothing out: its interval starts when somebody takes it into use.
  if (orElse === 'issued' && element.issuedTo === null) return undefined
  return unproven(rule, element, `it has no ${plain(care)} on record`)
}

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase()

/** The wearer's fit test with this very facepiece. Source: 29 CFR 1910.134(f)(2), at least annually. */
export const judgeFitTest: Judge = (rule, element, setting, wearer?: Wearer) => {
  const member = wearer?.member
  if (!member || typeof rule.limit !== 'string') return undefined
  const { model, size } = element
  if (!model || !size)
    return unproven(rule, element, 'its model or size is not known, so no fit test can match it')
  if (!member.fitTests.length) return unproven(rule, element, `${member.name} has no fit test on record`)
  const test = member.fitTests.findLast(
    ({ facepiece }) => same(facepiece.model, model) && same(facepiece.size, size),
  )
  const outside = { matter: 'safety' as const }
  if (!test) {
    const tested = member.fitTests.at(-1)!.facepiece
    const says = `${member.name} is fit tested with ${tested.model} ${tested.size}, not with ${model} ${size}`
    return verdict(rule, element, 'out-of-service', says, outside)
  }
  if (test.result === 'fail') {
    const says = `${member.name} failed the fit test with it on ${sayDate(test.on)}`
    return verdict(rule, element, 'out-of-service', says, {
      ...outside,
      since: { on: test.on, what: 'fit test' },
    })
  }
  const falls = addDuration(test.on, rule.limit)
  const since = { on: test.on, what: 'fit test' }
  return judgeDay(rule, element, setting, `${member.name}'s fit test`, { since, falls, lastGood: falls })
}
