// Groups of gear that are sent, tended or received in one go; it must never choose for the officer.
import { settingOf } from '../../domain/assess.ts'
import type { Row } from '../../domain/board.ts'
import type { Id } from '../../domain/gear.ts'
import { CARES, factsOf, isHeldBySeat, type Care } from '../../domain/kinds.ts'
import { policyOf } from '../../domain/policy/in-force.ts'
import { judgeExposure } from '../../domain/rules/conditions.ts'
import { bare } from '../../domain/rules/verdict.ts'
import { nameOf, sayMember } from '../../domain/decide/decision.ts'
import { isHere, standInOf, type Element } from '../../domain/state.ts'
import type { View } from '../view.ts'
import type { Answers, LookLine, Option, Step } from './action.ts'
import { elementIn } from './ask.ts'

/** Its value holds a space, so it is never the id of an element. */
export interface Group {
  value: string
  label: string
  ids: Id[]
}

/** What is out of service at these riding positions and here; a date alone sends nothing away. */
const outOfService = ({ state }: View, rows: readonly Row[]): Id[] =>
  rows.flatMap((row) =>
    row.places.flatMap((place) =>
      place.element !== null && place.state === 'out-of-service' && isHere(state.elements.get(place.element)!)
        ? place.element
        : [],
    ),
  )

/** All that is out of service at the riding position in hand, and in the whole crew of its rig. */
export function soiledGroups(view: View): Group[] {
  const { row, rig } = view
  if (!row || !rig) return []
  const here = outOfService(view, [row])
  const crew = outOfService(view, rig.rows)
  return [
    ...(crew.length > here.length ? lots(view, 'crew', `in the crew of ${rig.name}`, crew) : []),
    ...lots(view, 'here', 'here', here),
  ]
}

/** All of it, and without the breathing apparatus, which is seldom cleaned in the same place. */
function lots({ state }: View, name: string, where: string, ids: Id[]): Group[] {
  const clothes = ids.filter((id) => {
    const { kind } = state.elements.get(id)!
    return !isHeldBySeat(kind) && kind !== 'facepiece'
  })
  const isMixed = clothes.length > 1 && clothes.length < ids.length
  return ids.length > 1
    ? [
        { value: `all ${name}`, label: `All that is out of service ${where}`, ids },
        ...(isMixed
          ? [{ value: `clothes ${name}`, label: `Without breathing apparatus, ${where}`, ids: clothes }]
          : []),
      ]
    : []
}

/** For each place that more than one element is away at, all of them. */
export function awayGroups({ state }: View, says: 'from' | 'away at'): Group[] {
  const places = new Map<string, Id[]>()
  for (const { id, custody } of state.elements.values()) {
    if (custody.where === 'away') places.set(custody.to, [...(places.get(custody.to) ?? []), id])
  }
  return [...places]
    .filter(([, ids]) => ids.length > 1)
    .map(([to, ids]) => ({ value: `all of ${to}`, label: `Everything ${says} ${to}`, ids }))
}

export const groupOptions = (groups: readonly Group[]): Option[] =>
  groups.map(({ value, label, ids }) => ({ value, label: `${label} (${ids.length})` }))

const THESE = 'these '
/** An answer that names several at once, for an action that goes on with them. */
export const these = (elements: readonly Element[]): string =>
  `${THESE}${elements.map((each) => each.id).join(' ')}`

/** The elements that were chosen: those of a group, or the one. None where another terminal has seen to the group meanwhile. */
export const chosenIn = (view: View, answers: Answers, groups: readonly Group[]): Element[] => {
  const these = answers['element']?.startsWith(THESE)
    ? answers['element'].slice(THESE.length).split(' ')
    : undefined
  const ids = these ?? groups.find((each) => each.value === answers['element'])?.ids ?? [elementIn(answers)]
  return ids.flatMap((id) => view.state.elements.get(id) ?? [])
}

export const NOTHING_LEFT: Step = {
  ask: 'confirm',
  title: 'Nothing is left of that.',
  lines: [{ text: 'It was seen to meanwhile. Esc goes back.', tone: 'bad' }],
  deed: { commands: [], done: '' },
}

/** `12 elements`, or the only one by its name. */
export const sayCount = (elements: readonly Element[]): string =>
  elements.length === 1 ? nameOf(elements[0]!) : `${elements.length} elements`

/** All of them by id under whoever has them, where the title only counts them: what is bagged from whom. */
export function listed({ state, rows }: View, elements: readonly Element[]): LookLine[] {
  if (elements.length === 1) return []
  const bags = new Map<string, Id[]>()
  for (const each of elements) {
    const holder = standInOf(state, each.id)?.holder ?? each.issuedTo
    const row = rows.find(({ seat, member }) => holder !== null && (seat === holder || member === holder))
    const whose = row
      ? `${row.position} ${row.name}`.trim()
      : holder === null
        ? 'The rack'
        : sayMember(state, holder)
    bags.set(whose, [...(bags.get(whose) ?? []), each.id])
  }
  return [...bags].map(([whose, ids]) => ({
    text: `${whose} (${ids.length}): ${ids.join(', ')}.`,
    isItem: true,
  }))
}

/** Where gear was last sent, or who last cleaned it: most stations have one place for it. */
export function lastPlace({ state }: View): string {
  let [seq, place] = [0, '']
  for (const { custody, cares } of state.elements.values()) {
    if (custody.where === 'away' && custody.since.seq > seq) [seq, place] = [custody.since.seq, custody.to]
    const done = cares.findLast((each) => each.care === 'advanced-cleaning')
    if (done?.who !== undefined && done.seq > seq) [seq, place] = [done.seq, done.who]
  }
  return place
}

/** The cares that every one of them takes; those that clear the most of what they were exposed to come first. */
export function caresOf(view: View, elements: readonly Element[]): Care[] {
  const policy = policyOf(view.state)
  const setting = settingOf(view.state, policy, view.at)
  const clearing = policy.rules.flatMap(({ rule }) =>
    elements.flatMap((element): Care[] => {
      const { watch } = rule
      if (!('exposure' in watch) || !rule.kinds.includes(element.kind)) return []
      return judgeExposure(rule, element, setting, undefined, bare) === 'ready' ? [] : watch.clearedBy
    }),
  )
  const clears = (care: Care): number => clearing.filter((each) => each === care).length
  return CARES.filter((care) => elements.every(({ kind }) => factsOf(kind).cares.includes(care))).toSorted(
    (a, b) => clears(b) - clears(a),
  )
}
