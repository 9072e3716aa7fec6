// Gear, wearers and days to judge by the published base in the tests of the rules; it must never work out an outcome.
import { KINDS, type Care, type Exposure, type Kind } from '../../../src/domain/kinds.ts'
import { BASES, DEFAULT_BASE } from '../../../src/domain/policy/bases.ts'
import { layOver } from '../../../src/domain/policy/in-force.ts'
import type { Condition, Overlay, Policy, Rule } from '../../../src/domain/policy/shape.ts'
import { judgePresence } from '../../../src/domain/rules/composition.ts'
import { judgeElement } from '../../../src/domain/rules/judge.ts'
import { verdict, type Setting, type Verdict, type Wearer } from '../../../src/domain/rules/verdict.ts'
import type { CareRecord, Element, FitTest, Member, Said, Seat } from '../../../src/domain/state.ts'

export const BASE = BASES.get(DEFAULT_BASE)!
export const POLICY = layOver(BASE, null)
export const ruleOf = (id: string): Rule => BASE.rules.find((rule) => rule.id === id)!

/** Noon of a day in the station's zone. */
export const noon = (date: string): string => `${date}T12:00:00.000-05:00`
export const said = (seq: number, at: string): Said => ({ seq, at, by: 'M-1' })

/** An element issued to its holder and at its place, with nothing recorded of it but what is given. */
export const gear = (kind: Kind, facts: Partial<Element> = {}): Element => ({
  id: `X-${KINDS.indexOf(kind)}`,
  kind,
  seq: 1,
  issuedTo: 'M-1',
  issuedOn: '2024-01-10',
  custody: { where: 'issued' },
  tags: [],
  cares: [],
  exposures: [],
  readings: [],
  ...facts,
})

export const cared = (care: Care, on: string, more: Partial<CareRecord> = {}): CareRecord => ({
  ...said(10, noon(on)),
  care,
  on,
  result: 'serviceable',
  ...more,
})
export const exposed = (exposure: Exposure, at: string, seq = 20) => ({ ...said(seq, at), exposure })
export const read = (psi: number, at: string) => ({ ...said(30, at), psi })
/** Looked at and found serviceable, at roll call or as its gauge was read. */
export const called = (on: string) => said(35, noon(on))
export const tagged = (reason: string, matter: 'safety' | 'compliance', seq = 40) => ({
  ...said(seq, noon('2026-11-24')),
  reason,
  matter,
})
export const tested = (on: string, more: Partial<FitTest> = {}): FitTest => ({
  ...said(50, noon(on)),
  on,
  facepiece: { model: 'Clear Two', size: 'M' },
  result: 'pass',
  ...more,
})

const SEAT: Seat = { id: 'E1-1', rig: 'E1', position: 'Officer', critical: true, member: 'M-1' }

export function wearer(parts: Element[] = [], member: Partial<Member> | null = {}): Wearer {
  const worn = member && { id: 'M-1', name: 'A. Varga', seq: 1, seat: SEAT.id, fitTests: [], ...member }
  return { seat: SEAT, member: worn, parts: new Map(parts.map((part) => [part.kind, part])) }
}

export interface Day {
  today: string
  /** The last day of the open tour; `today` when none is open. */
  until?: string
  tourSince?: string
  isTourOpen?: boolean
  policy?: Policy
}
export const settingOn = ({
  today,
  until = today,
  tourSince,
  isTourOpen = tourSince !== undefined,
  policy = POLICY,
}: Day): Setting => ({
  policy,
  at: noon(today),
  today,
  until,
  isTourOpen,
  tourSince,
})

/** What one rule of the policy says of an element, through the same door the board uses. */
export const verdictOf = (rule: string, element: Element, day: Day, worn?: Wearer): Verdict | undefined =>
  judgeElement(element, settingOn(day), worn).find((each) => each.rule === rule)

/** What one rule says of a place, given the element that is on the books for it. */
export const presenceOf = (rule: string, kind: Kind, assigned: Element | undefined, worn = wearer()) =>
  judgePresence(ruleOf(rule), kind, assigned, worn, verdict)

/** The policy that an overlay makes of a base, the default one unless it says otherwise. */
export const policyWith = (overlay: Overlay, base = BASE): Policy => layOver(base, overlay)

/**
 * One line of a rule's table. `side` is where the case stands: within the rule, past it, or with nothing on
 * record of what the rule looks at.
 */
export interface Case {
  rule: string
  side: 'within' | 'past' | 'nothing'
  title: string
  judge: () => Verdict | undefined
  /** `none`: the rule has nothing to look at. */
  state: Condition | 'none'
  matter?: 'safety' | 'compliance'
  on?: string
}
