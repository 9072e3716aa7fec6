// Groups of gear that are sent, tended or received in one go; it must never choose for the officer.
import { settingOf } from '../../domain/assess.ts'
import type { Row } from '../../domain/board.ts'
import type { Id } from '../../domain/gear.ts'
import { CARES, factsOf, type Care } from '../../domain/kinds.ts'
import { policyOf } from '../../domain/policy/in-force.ts'
import { judgeExposure } from '../../domain/rules/conditions.ts'
import { nameOf } from '../../domain/decide/decision.ts'
import { isHere, type Element } from '../../domain/state.ts'
import type { View } from '../view.ts'
import type { Answers, Option, Step } from './action.ts'
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
  const all = 'All that is out of service'
  return [
    ...(here.length > 1 ? [{ value: 'all here', label: `${all} here`, ids: here }] : []),
    ...(crew.length > 1 && crew.length > here.length
      ? [{ value: 'all crew', label: `${all} in the crew of ${rig.name}`, ids: crew }]
      : []),
  ]
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

/** The elements that were chosen: those of a group, or the one. None where another terminal has seen to the group meanwhile. */
export const chosenIn = (view: View, answers: Answers, groups: readonly Group[]): Element[] => {
  const ids = groups.find((each) => each.value === answers['element'])?.ids ?? [elementIn(answers)]
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

/** All of them by id, where the title only counts them. */
export const listed = (elements: readonly Element[]): string[] =>
  elements.length === 1 ? [] : [`${elements.map((each) => each.id).join(', ')}.`]

/** The cares that every one of them takes; those that clear the most of what they were exposed to come first. */
export function caresOf(view: View, elements: readonly Element[]): Care[] {
  const policy = policyOf(view.state)
  const setting = settingOf(view.state, policy, view.at)
  const clearing = policy.rules.flatMap(({ rule }) =>
    elements.flatMap((element): Care[] => {
      const { watch } = rule
      if (!('exposure' in watch) || !rule.kinds.includes(element.kind)) return []
      return judgeExposure(rule, element, setting)?.state === 'ready' ? [] : watch.clearedBy
    }),
  )
  const clears = (care: Care): number => clearing.filter((each) => each === care).length
  return CARES.filter((care) => elements.every(({ kind }) => factsOf(kind).cares.includes(care))).toSorted(
    (a, b) => clears(b) - clears(a),
  )
}
