// What comes due, with the day its own rule gives; it must never reckon a date that no rule has given.
import { settingOf } from '../assess.ts'
import type { Id, Matter } from '../gear.ts'
import { KINDS, type Care, type Kind } from '../kinds.ts'
import { onTheRack } from '../on-the-rack.ts'
import type { Policy, Rule } from '../policy/shape.ts'
import { judgeFor } from '../rules/judge.ts'
import { isLooser, verdict, type Judge, type Setting, type Verdict, type Wearer } from '../rules/verdict.ts'
import { assigned, type Custody, type Element, type State } from '../state.ts'
import { addDays, type Instant, type LocalDate } from '../time.ts'

/** What a limit asks for as it falls: another element, a fit test of its wearer, or a care. */
type Need = 'replacement' | 'fit-test' | Care

export interface Subject {
  /** For a fit test the facepiece that it is with; nothing where its member has none of their own. */
  element: Id | null
  kind: Kind
  rule: string
  matter: Matter
  need: Need
  /** Who has it, or the riding position it is at; nobody for a spare on the rack. */
  holder: Id | null
  holderName: string
  where: Custody['where'] | null
  /** One sentence without the element's name. */
  says: string
  /** The department's overlay gives this rule more room than the published base. */
  looser: boolean
}
export interface Deadline extends Subject {
  /** The day the limit falls. */
  on: LocalDate
  /** The last day on which it may still be worn. */
  lastGood: LocalDate
}

export interface Forecast {
  at: Instant
  from: LocalDate
  /** The last day looked at. */
  until: LocalDate
  /** Limits that have fallen already, the oldest first. */
  past: Deadline[]
  /** Limits that fall up to `until`, the nearest first. */
  ahead: Deadline[]
  /** What has no day because something is not known: never taken for something that does not come due. */
  undated: Subject[]
  /** How many limits fall after `until`. */
  beyond: number
}

type DatedWatch = Extract<Rule['watch'], { since: string }>
const needOf = (watch: DatedWatch): Need =>
  watch.since === 'care' ? watch.care : watch.since === 'fit-test' ? 'fit-test' : 'replacement'

/** Whose it is just now: of a spare that stands in, whoever wears it. */
function holdersIn(state: State): ReadonlyMap<Id, Id> {
  const holders = new Map<Id, Id>()
  for (const { id, issuedTo } of state.elements.values()) if (issuedTo !== null) holders.set(id, issuedTo)
  for (const { element, holder } of state.standIns.values()) holders.set(element, holder)
  return holders
}

/** Off duty or on, a member's fit test runs; it is asked with the one facepiece that is in their place. */
function wearerOf(state: State, element: Element, holder: Id | null): Wearer | undefined {
  const member = holder === null ? undefined : state.members.get(holder)
  if (!member || assigned(state, member.id, element.kind)?.id !== element.id) return undefined
  const seat = { id: member.seat ?? '', rig: '', position: '', critical: false, member: member.id }
  return { seat, member, parts: new Map() }
}

/** @param days how far to look, from the station's own day at that instant on */
export function forecast(state: State, policy: Policy, at: Instant, days: number): Forecast {
  const setting = settingOf(state, policy, at)
  const { today } = setting
  const seen: Forecast = {
    at,
    from: today,
    until: addDays(today, days),
    past: [],
    ahead: [],
    undated: [],
    beyond: 0,
  }
  const holders = holdersIn(state)
  const limits = new Map(KINDS.map((kind) => [kind, limitsOf(policy, ({ kinds }) => kinds.includes(kind))]))
  for (const element of state.elements.values()) {
    // Nothing comes due of what has left the books; evidence is left as it is.
    if (element.custody.where === 'retired' || element.custody.where === 'held') continue
    const holder = holders.get(element.id) ?? null
    for (const [subject, verdict] of judged(state, setting, limits.get(element.kind)!, element, holder))
      take(seen, today, subject, verdict)
  }
  for (const [subject, verdict] of testsWithoutFacepiece(state, setting)) take(seen, today, subject, verdict)
  seen.past.sort(byDay)
  seen.ahead.sort(byDay)
  return seen
}

/** A rule with a limit, who looks at an element by it, and what it asks for. */
interface Limit {
  rule: Rule
  judge: Judge
  need: Need
  looser: boolean
}

const limitsOf = (policy: Policy, isAsked: (rule: Rule) => boolean): Limit[] =>
  policy.rules.flatMap(({ rule }): Limit[] => {
    const judge = judgeFor(rule)
    if (!judge || !('since' in rule.watch) || !isAsked(rule)) return []
    return [{ rule, judge, need: needOf(rule.watch), looser: isLooser(policy, rule.id) }]
  })

function* judged(
  state: State,
  setting: Setting,
  limits: readonly Limit[],
  element: Element,
  holder: Id | null,
): Generator<[Subject, Verdict]> {
  const wearer = wearerOf(state, element, holder)
  const holderName = (holder !== null && state.members.get(holder)?.name) || ''
  const { id, kind, custody } = element
  for (const { rule, judge, need, looser } of limits) {
    const found = judge(rule, element, setting, wearer, verdict)
    if (!found) continue
    const { matter, says } = found
    const { where } = custody
    yield [{ element: id, kind, rule: rule.id, matter, says, looser, need, holder, holderName, where }, found]
  }
}

/** A fit test runs on while its member has no facepiece: the newest is asked as if the one it was with were theirs. */
function* testsWithoutFacepiece(state: State, setting: Setting): Generator<[Subject, Verdict]> {
  const kind = 'facepiece'
  const tests = limitsOf(setting.policy, ({ watch }) => 'since' in watch && watch.since === 'fit-test')
  for (const member of state.members.values()) {
    const test = member.fitTests.at(-1)
    if (!test || assigned(state, member.id, kind)) continue
    const seat = { id: '', rig: '', position: '', critical: false, member: member.id }
    const alike = onTheRack({ id: '', kind, ...test.facepiece }, 0)
    for (const { rule, judge, need, looser } of tests) {
      const found = judge(rule, alike, setting, { seat, member, parts: new Map() }, verdict)
      if (!found) continue
      const { matter, says } = found
      const whose = { holder: member.id, holderName: member.name, where: null }
      yield [{ element: null, kind, rule: rule.id, matter, says, looser, need, ...whose }, found]
    }
  }
}

function take(seen: Forecast, today: LocalDate, subject: Subject, { on, lastGood }: Verdict): void {
  if (on === null || lastGood === undefined) seen.undated.push(subject)
  else if (today > lastGood) seen.past.push({ ...subject, on, lastGood })
  else if (on <= seen.until) seen.ahead.push({ ...subject, on, lastGood })
  else seen.beyond += 1
}

const inOrder = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
const PLACES = new Map(KINDS.map((kind, at) => [kind, at]))

const byDay = (a: Deadline, b: Deadline): number =>
  inOrder(a.on, b.on) ||
  PLACES.get(a.kind)! - PLACES.get(b.kind)! ||
  inOrder(a.element ?? a.holder ?? '', b.element ?? b.holder ?? '') ||
  inOrder(a.rule, b.rule)
