// The questions that several actions ask; each gives the step while its answer is missing.
import type { Id } from '../../domain/gear.ts'
import type { Element, Member, State } from '../../domain/state.ts'
import { KINDS, POINT_WORDS, pointsOf, type Kind } from '../../domain/kinds.ts'
import { capital, nameOf, sayAbsence } from '../../domain/decide/decision.ts'
import { isLocalDate, dateOf } from '../../domain/time.ts'
import { SIGNS } from '../../domain/signs.ts'
import { sayPlace } from '../say.ts'
import type { View } from '../view.ts'
import type { Answers, Option, Step } from './action.ts'

/** The row for what the list does not name. */
export const OTHER = 'other'

export const noSeat = (view: View): string | undefined =>
  view.row ? undefined : 'This station has no rig yet. Add one with: bayboard record'

/** Nobody rides there, so there is nobody to ask. */
export const nobodyHere = (view: View): string | undefined =>
  noSeat(view) ?? (view.row!.member === null ? `Nobody rides at ${view.row!.seat}.` : undefined)

/** The elements at the seat in hand, with their state, worst first as the panel shows them. */
function elementOptions(view: View): Option[] {
  const row = view.row!
  return row.places.flatMap((place) =>
    place.element === null
      ? []
      : {
          value: place.element,
          label: `${capital(place.word)} ${place.element}`,
          note: place.state === 'ready' ? place.label : sayPlace(place),
          tone: SIGNS[place.state].tone,
        },
  )
}

/** Everything that has an id and is still on the books, as a list to narrow. */
const everyElement = (state: State): Option[] =>
  [...state.elements.values()]
    .filter((each) => each.custody.where !== 'retired')
    .map((each) => ({
      value: each.id,
      label: capital(nameOf(each)),
      note: [each.size, each.serial, each.issuedTo ?? each.custody.where].filter(Boolean).join(', '),
    }))

/** Which element is meant: one at the seat in hand, or any of the station. Two steps at the most. */
export function askElement(
  view: View,
  answers: Answers,
  title: string,
  also: Option[] = [],
): Step | undefined {
  if (answers['element'] === undefined) {
    const own = view.row ? elementOptions(view) : []
    const other = { value: OTHER, label: 'Another element of the station' }
    return { ask: 'choose', name: 'element', title, options: [...own, ...also, other] }
  }
  if (answers['element'] === OTHER && answers['id'] === undefined) {
    const title = 'Which element? Type part of its id, its kind or its serial'
    return { ask: 'choose', name: 'id', title, options: everyElement(view.state) }
  }
  return undefined
}

export const elementIn = (answers: Answers): string =>
  answers['element'] === OTHER ? answers['id']! : answers['element']!

/** Elements that are out of their holder's place for now: pulled, away or held; they still get care. */
export const absentOptions = (state: State, wanted: (element: Element) => boolean): Option[] =>
  [...state.elements.values()]
    .filter(wanted)
    .map((element) => ({ value: element.id, label: capital(nameOf(element)), note: sayAbsence(element) }))

/** What is wrong: the points of its own routine inspection, or free words. */
export function askPoint(element: Element, answers: Answers): Step | undefined {
  if (answers['point'] === undefined) {
    const points = pointsOf(element.kind).map((point) => ({
      value: point,
      label: capital(point),
      ...(POINT_WORDS[point] && { note: POINT_WORDS[point] }),
    }))
    const other = { value: OTHER, label: 'Something else, in your own words' }
    return {
      ask: 'choose',
      name: 'point',
      title: `What is wrong with ${nameOf(element)}?`,
      options: [...points, other],
    }
  }
  if (answers['point'] === OTHER && answers['words'] === undefined) {
    return { ask: 'write', name: 'words', title: 'What is wrong, in your own words', fault: needsWords }
  }
  return undefined
}

export const pointIn = (answers: Answers): string =>
  answers['point'] === OTHER ? answers['words']! : answers['point']!

export function askMatter(answers: Answers): Step | undefined {
  if (answers['matter'] !== undefined) return undefined
  return {
    ask: 'choose',
    name: 'matter',
    title: 'Which is it?',
    options: [
      { value: 'safety', label: 'Safety', note: 'damage, contamination, wet, missing' },
      { value: 'compliance', label: 'Compliance', note: 'dates, records' },
    ],
  }
}

export const needsWords = (text: string): string | undefined =>
  text.trim() ? undefined : 'Some words are needed here.'

export function askWords(
  answers: Answers,
  name: string,
  title: string,
  hint?: string,
  initial?: string,
): Step | undefined {
  return answers[name] === undefined
    ? { ask: 'write', name, title, ...(hint && { hint }), ...(initial && { initial }), fault: needsWords }
    : undefined
}

export function askDay(view: View, answers: Answers, title: string): Step | undefined {
  if (answers['on'] !== undefined) return undefined
  const today = dateOf(view.at)
  const fault = (text: string): string | undefined => {
    if (!isLocalDate(text)) return `${text || 'Nothing'} is not a date. Write it as ${today}.`
    return text > today ? 'That day is still to come.' : undefined
  }
  return { ask: 'write', name: 'on', title, hint: 'year-month-day', initial: today, fault }
}

export function askMember(
  view: View,
  answers: Answers,
  name: string,
  title: string,
  wanted?: string,
  first: (member: Member) => number = () => 0,
  blocked: (member: Member) => string | undefined = () => undefined,
): Step | undefined {
  if (answers[name] !== undefined) return undefined
  const isWanted = (member: Member): number => Number(wanted !== undefined && member.platoon === wanted)
  const members = [...view.state.members.values()].toSorted(
    (a, b) =>
      Number(blocked(a) !== undefined) - Number(blocked(b) !== undefined) ||
      isWanted(b) - isWanted(a) ||
      first(b) - first(a) ||
      a.name.localeCompare(b.name),
  )
  const options = members.map((member): Option => {
    const parts = [
      member.rank,
      member.platoon && `platoon ${member.platoon}`,
      member.seat && `at ${member.seat}`,
    ]
    return {
      value: member.id,
      label: `${member.name} (${member.id})`,
      note: parts.filter(Boolean).join(', '),
      blocked: blocked(member),
    }
  })
  return { ask: 'choose', name, title, options }
}

/** The ranks that a tour is usually handed to; anybody can still be chosen. */
const OFFICER = /chief|captain|lieutenant|officer/i

/** The same for who commands: officers first. */
export const askOfficer = (
  view: View,
  answers: Answers,
  name: string,
  title: string,
  wanted?: string,
  expected?: Id,
): Step | undefined =>
  askMember(view, answers, name, title, wanted, ({ id, rank }) =>
    id === expected ? 2 : Number(OFFICER.test(rank ?? '')),
  )

export const kindsOnTheRack = (state: State): Kind[] =>
  KINDS.filter((kind) =>
    [...state.elements.values()].some((each) => each.kind === kind && each.custody.where === 'rack'),
  )
