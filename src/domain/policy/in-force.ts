// Lays the department's overlay on a published base policy; it must never hide that a rule became looser.
import { CONSTRUCTIONS, plain, type Construction } from '../kinds.ts'
import type { State } from '../state.ts'
import { addDuration, daysBetween, sayDuration, type Duration } from '../time.ts'
import { baseOf } from './bases.ts'
import {
  CONDITIONS,
  type BasePolicy,
  type Overlay,
  type Policy,
  type Rule,
  type RuleChange,
} from './shape.ts'

/** Durations order by the date they reach from one fixed day. */
const FIXED_DAY = '2001-01-01'
const reach = (duration: Duration): string => addDuration(FIXED_DAY, duration)
/** A count of months, or of years, differs by up to three days: with two limits and two warnings, by twelve at most. */
const MOST_UNEVEN_DAYS = 14

const limitOf = (limit: Rule['limit'], name: Construction) =>
  typeof limit === 'object' ? limit[name] : limit

/** A construction that a limit leaves out has none, so leaving one out is looser too. */
function limitLooser(before: Rule['limit'], after: Rule['limit']): boolean {
  return CONSTRUCTIONS.some((name) => {
    const [old, now] = [limitOf(before, name), limitOf(after, name)]
    return old !== undefined && (now === undefined || reach(now) > reach(old))
  })
}

/** A shorter warning gives no more room where the limit itself has come so much nearer that it begins earlier all the same. */
function warningLooser(before: Rule, after: Rule): boolean {
  if (!before.warn || !after.warn || reach(after.warn) >= reach(before.warn)) return false
  const begins = (limit: Duration, warn: Duration): number =>
    daysBetween(FIXED_DAY, reach(limit)) - daysBetween(FIXED_DAY, reach(warn))
  const isLater = (old: Rule['limit'], now: Rule['limit']): boolean =>
    old === undefined ||
    CONSTRUCTIONS.some((name) => {
      const [limit, next] = [limitOf(old, name), limitOf(now, name)]
      if (limit === undefined || next === undefined) return limit !== next
      return begins(next, after.warn!) > begins(limit, before.warn!) - MOST_UNEVEN_DAYS
    })
  return (
    isLater(before.limit, after.limit) || isLater(before.first ?? before.limit, after.first ?? after.limit)
  )
}

/** In words, each way in which a rule gives more room than it did. */
function sayLooser(before: Rule, after: Rule): string | undefined {
  const ways: string[] = []
  if (limitLooser(before.limit, after.limit))
    ways.push(`limit ${sayLimit(after.limit)}, not ${sayLimit(before.limit)}`)
  const first = before.first ?? before.limit
  if (after.first && limitLooser(first, after.first)) {
    ways.push(`first limit ${sayDuration(after.first)}, not ${sayLimit(first)}`)
  }
  if (warningLooser(before, after)) {
    ways.push(`warns ${sayDuration(after.warn!)} ahead, not ${sayDuration(before.warn!)}`)
  }
  if (CONDITIONS.indexOf(after.past) > CONDITIONS.indexOf(before.past)) {
    ways.push(`past its limit it is ${plain(after.past)}, not ${plain(before.past)}`)
  }
  return ways.length ? ways.join('; ') : undefined
}

/** Each rule that gives more room than the published base, with the reason of whoever made it so. */
export const sayLooserRules = ({ rules, off }: Policy): string[] => [
  ...rules.flatMap(({ rule, looser, reason }) =>
    looser ? [`${plain(rule.id)}: ${looser}${reason ? ` (${reason})` : ''}`] : [],
  ),
  ...off.map(({ rule, reason }) => `${plain(rule.id)}: switched off (${reason})`),
]

export const sayLimit = (limit: Rule['limit']): string =>
  limit === undefined
    ? 'none'
    : typeof limit === 'string'
      ? sayDuration(limit)
      : Object.entries(limit)
          .map(([name, value]) => `${name} ${sayDuration(value)}`)
          .join(', ')

function changed(rule: Rule, change: RuleChange): Rule {
  const { id: _id, reason: _reason, off: _off, ...fields } = change
  const given = Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined))
  return { ...rule, ...given }
}

/** The policy that a base and an overlay make together. */
export function layOver(base: BasePolicy, overlay: Overlay | null): Policy {
  const changes = new Map(overlay?.changes.map((change) => [change.id, change]))
  const policy: Policy = { name: base.name, edition: base.edition, rules: [], off: [] }
  if (base.provisional) policy.provisional = base.provisional
  if (overlay) policy.overlay = overlay.name
  if (overlay?.moves) policy.moves = overlay.moves
  for (const rule of base.rules) {
    const change = changes.get(rule.id)
    if (!change) {
      policy.rules.push({ rule })
    } else if (change.off) {
      policy.off.push({ rule, reason: change.reason })
    } else {
      const now = changed(rule, change)
      const looser = sayLooser(rule, now)
      policy.rules.push({ rule: now, reason: change.reason, ...(looser && { looser, base: rule }) })
    }
  }
  for (const { reason, ...rule } of overlay?.add ?? []) policy.rules.push({ rule, reason, isAdded: true })
  return policy
}

/** Only a cylinder has a construction, so a limit by construction would leave other gear without one. */
const isMisplaced = (limit: Rule['limit'], rule: Rule): boolean =>
  typeof limit === 'object' && rule.kinds.some((kind) => kind !== 'cylinder')
const sayMisplaced = (rule: Rule): string =>
  `rule "${rule.id}" is not about cylinders alone, so its limit cannot go by construction.`

/** What is wrong with an overlay for this base, in sentences; none when it can be adopted. */
export function faultsOf(base: BasePolicy, overlay: Overlay): string[] {
  const known = new Set(base.rules.map((rule) => rule.id))
  const seen = new Set<string>()
  const faults: string[] = []
  overlay.changes.forEach((change, index) => {
    const where = `Change ${index + 1}`
    if (!known.has(change.id)) {
      faults.push(
        `${where}: ${base.name} has no rule "${change.id}". Its rules are: ${[...known].join(', ')}.`,
      )
    }
    if (seen.has(change.id)) faults.push(`${where}: rule "${change.id}" is changed twice.`)
    seen.add(change.id)
    const rule = base.rules.find((each) => each.id === change.id)
    if (rule && change.limit !== undefined && rule.limit === undefined) {
      faults.push(`${where}: rule "${change.id}" has no limit to change.`)
    }
    if (rule && isMisplaced(change.limit, rule)) faults.push(`${where}: ${sayMisplaced(rule)}`)
    if (
      !change.off &&
      [change.limit, change.first, change.warn, change.past].every((value) => value === undefined)
    ) {
      faults.push(`${where}: it changes nothing of rule "${change.id}".`)
    }
  })
  overlay.add.forEach((rule, index) => {
    if (known.has(rule.id) || overlay.add.findIndex((each) => each.id === rule.id) !== index) {
      faults.push(
        `Added rule ${index + 1}: there is already a rule "${rule.id}". Change it, or give the new one another id.`,
      )
    }
    const counts = 'since' in rule.watch
    if (counts && rule.limit === undefined)
      faults.push(`Added rule ${index + 1}: rule "${rule.id}" needs a limit.`)
    if (isMisplaced(rule.limit, rule)) faults.push(`Added rule ${index + 1}: ${sayMisplaced(rule)}`)
  })
  return faults
}

/** No overlay, as a key. */
const NONE = {}
const made = new WeakMap<BasePolicy, WeakMap<object, Policy>>()

/** The policy in force at this point of the journal. The same base and overlay give the same policy object. */
export function policyOf(state: State): Policy {
  const base = baseOf(state)
  const ofBase = made.get(base) ?? new WeakMap<object, Policy>()
  made.set(base, ofBase)
  const key = state.overlay ?? NONE
  const policy = ofBase.get(key) ?? layOver(base, state.overlay)
  ofBase.set(key, policy)
  return policy
}
