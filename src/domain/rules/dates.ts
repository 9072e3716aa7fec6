// Rules that count days: service life from the label, intervals from the newest care, the fit test's year.
import { plain, type Care } from '../kinds.ts'
import type { Condition, Rule } from '../policy/shape.ts'
import type { Element } from '../state.ts'
import {
  addDays,
  addDuration,
  dateOf,
  firstDay,
  sayDate,
  sayDuration,
  soonest,
  type Duration,
  type LocalDate,
} from '../time.ts'
import type { Judge, Make, Setting } from './verdict.ts'

/**
 * @param since the day it counts from and what happened then
 * @param falls the day the limit falls
 * @param lastGood the last day on which it may still be worn
 */
function judgeDay<T>(
  rule: Rule,
  element: Element,
  setting: Setting,
  make: Make<T>,
  what: () => string,
  days: { since: { on: LocalDate; what: string }; limit: Duration; falls: LocalDate; lastGood: LocalDate },
): T {
  const { since, limit, falls, lastGood } = days
  const found = (state: Condition, words: string): T =>
    make(rule, element, state, () => ({
      says: `${what()} ${words} ${sayDate(lastGood)}`,
      on: falls,
      lastGood,
      since,
      limit,
    }))
  if (setting.today > lastGood) return found(rule.past, 'ended on')
  if (setting.until > lastGood) return found('due', 'ends during this tour, on')
  if (rule.warn && addDuration(setting.today, rule.warn) >= falls) return found('due', 'ends on')
  return found('ready', 'runs to')
}

/** A limit that depends on a cylinder's construction; undefined when this construction has none. */
function limitFor(rule: Rule, element: Element): Duration | undefined | 'unknown' {
  if (typeof rule.limit !== 'object') return rule.limit
  return element.construction === undefined ? 'unknown' : rule.limit[element.construction]
}

const unproven = <T>(rule: Rule, element: Element, make: Make<T>, says: () => string): T =>
  make(rule, element, 'unproven', () => ({ says: says() }))

/**
 * Service life. A label gives a month only: it counts from that month's first day, and the element is not fit from
 * the day the limit falls. Source: the ten-year rule as public pages report it; the safe reading of a month label.
 */
export const judgeLife: Judge = (rule, element, setting, _wearer, make) => {
  const limit = limitFor(rule, element)
  if (limit === 'unknown')
    return unproven(rule, element, make, () => 'its construction is not known, so neither is its life')
  if (limit === undefined) return undefined
  if (!element.made) return unproven(rule, element, make, () => 'it has no date of manufacture')
  const from = firstDay(element.made)
  const falls = addDuration(from, limit)
  return judgeDay(rule, element, setting, make, () => `${sayDuration(limit)} from manufacture`, {
    since: { on: from, what: `made ${element.made}` },
    limit,
    falls,
    lastGood: addDays(falls, -1),
  })
}

/**
 * The newest care of a kind by the day it was done, whatever the order it was entered in. One that the element
 * failed starts no interval: lifting its tag must not stand for passing it. The roll call is a routine inspection, and so is reading the gauge.
 */
export function newestCare(element: Element, care: Care): { on: LocalDate; what: string } | undefined {
  const done = element.cares.findLast((each) => each.care === care && each.result === 'serviceable')
  const recorded = done && { on: done.on, what: plain(care) }
  if (care !== 'routine-inspection' || !element.called) return recorded
  const called = { on: dateOf(element.called.at), what: 'roll call or reading' }
  return recorded && recorded.on > called.on ? recorded : called
}

/** What stands for a care before there is one, and the day its first limit falls. */
function beginningOf(element: Element, orElse: 'issued' | 'manufactured' | undefined, first: Duration) {
  const [on, what, word] =
    orElse === 'manufactured'
      ? [element.made && firstDay(element.made), `made ${element.made}`, 'manufacture']
      : [orElse && soonest([element.inService ?? null, element.issuedOn]), 'in service', 'issue']
  return on ? { since: { on, what }, word, falls: addDuration(on, first) } : undefined
}

/** In use since nobody knows when: at the earliest since it was made, which may show it in date but never past it. */
function shownByLabel(element: Element, first: Duration, today: LocalDate) {
  const made = beginningOf(element, 'manufactured', first)
  return made && made.falls >= today ? made : undefined
}

/**
 * An interval from the newest care; fit through the day the limit falls. A care done before a longer first limit has
 * run does not bring that limit forward: gear looked at early must not be worse off than gear not looked at.
 */
export const judgeInterval: Judge = (rule, element, setting, _wearer, make) => {
  if (!('since' in rule.watch) || rule.watch.since !== 'care') return undefined
  const { care, orElse } = rule.watch
  const limit = limitFor(rule, element)
  if (limit === 'unknown')
    return unproven(
      rule,
      element,
      make,
      () => `its construction is not known, so neither is its ${plain(care)}`,
    )
  if (limit === undefined) return undefined
  const first = rule.first ?? limit
  const done = newestCare(element, care)
  // Only a longer first limit can fall later than one that began later.
  const told = done && rule.first === undefined ? undefined : beginningOf(element, orElse, first)
  if (done) {
    const falls = addDuration(done.on, limit)
    const isEarly = told !== undefined && done.on >= told.since.on && told.falls > falls
    const days = { since: done, limit, falls, lastGood: falls }
    const what = (): string => `${sayDuration(limit)} from ${done.what}`
    if (!isEarly) return judgeDay(rule, element, setting, make, what, days)
  }
  // Stock that was never issued has worn nothing out: its interval starts when somebody takes it into use.
  if (!told && orElse === 'issued' && element.issuedTo === null && !element.issuedBefore) return undefined
  const began = told ?? (orElse === 'issued' ? shownByLabel(element, first, setting.today) : undefined)
  if (began) {
    const { since, word, falls } = began
    const what = (): string =>
      done
        ? `${sayDuration(first)} from ${word}, the early ${plain(care)} aside,`
        : `first ${plain(care)} within ${sayDuration(first)} of ${word}`
    return judgeDay(rule, element, setting, make, what, { since, limit: first, falls, lastGood: falls })
  }
  const made = orElse === 'manufactured' ? ' and no date of manufacture' : ''
  return unproven(rule, element, make, () => `it has no ${plain(care)} on record${made}`)
}

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase()

/** The wearer's fit test with this very facepiece. Source: 29 CFR 1910.134(f)(2), at least annually. */
export const judgeFitTest: Judge = (rule, element, setting, wearer, make) => {
  const member = wearer?.member
  if (!member || typeof rule.limit !== 'string') return undefined
  const { model, size } = element
  if (!model || !size)
    return unproven(rule, element, make, () => 'its model or size is not known, so no fit test can match it')
  if (!member.fitTests.length)
    return unproven(rule, element, make, () => `${member.name} has no fit test on record`)
  const test = member.fitTests.findLast(
    ({ facepiece }) => same(facepiece.model, model) && same(facepiece.size, size),
  )
  const matter = 'safety' as const
  if (!test) {
    const tested = member.fitTests.at(-1)!.facepiece
    return make(rule, element, 'out-of-service', () => ({
      says: `${member.name} is fit tested with ${tested.model} ${tested.size}, not with ${model} ${size}`,
      matter,
    }))
  }
  const since = { on: test.on, what: 'fit test' }
  if (test.result === 'fail') {
    return make(rule, element, 'out-of-service', () => ({
      says: `${member.name} failed the fit test with it on ${sayDate(test.on)}`,
      matter,
      since,
    }))
  }
  const falls = addDuration(test.on, rule.limit)
  return judgeDay(rule, element, setting, make, () => `${member.name}'s fit test`, {
    since,
    limit: rule.limit,
    falls,
    lastGood: falls,
  })
}
