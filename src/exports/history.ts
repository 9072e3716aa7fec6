// All that happened to one element, member, riding position or rig, in the order of the journal; it must never skip an event.
import { cleanText } from '../domain/clean.ts'
import { capital, nameOf, sayAbsence, sayMember } from '../domain/decide/decision.ts'
import type { Event } from '../domain/events.ts'
import { explain, sayExplanation, type Explanation } from '../domain/explain.ts'
import type { Id } from '../domain/gear.ts'
import { factsOf, pointsOf } from '../domain/kinds.ts'
import { policyOf } from '../domain/policy/in-force.ts'
import { standInOf, type Element, type Member, type State } from '../domain/state.ts'
import { tell } from '../domain/tell.ts'
import { sayDate, type Instant } from '../domain/time.ts'
import { sayWhen } from './said.ts'

export interface HistoryLine {
  seq: number
  at: string
  by: string
  type: string
  words: string
}

/** `events` are those about it, as `aboutOf` selects them, in order. */
export function historyLines(events: Iterable<Event>, state: State, id: Id): HistoryLine[] {
  return Array.from(events, (event) => {
    const { seq, at, by, type } = event
    const sentence = tell(event, state)
    // A sentence about many things names only the first few of them.
    const words = namesIt(sentence, id) ? sentence : `${sentence} (${id} is one of these.)`
    return { seq, at: cleanText(at), by: cleanText(sayMember(state, by)), type, words: cleanText(words) }
  })
}

const namesIt = (sentence: string, id: Id): boolean =>
  sentence.split(/[^A-Za-z0-9_.-]+/).some((each) => each === id || each === `${id}.`)

/**
 * The card of what it is now and what the rules have against it `at` this instant, with its arithmetic; a line an
 * event, `2026-11-24 07:02  #41  by A. Varga (M-104)  Tagged ...`; then the rules that have nothing against it.
 */
export function historyText(events: Iterable<Event>, state: State, id: Id, at: Instant): string {
  const lines = historyLines(events, state, id).map(
    ({ seq, at, by, words }) => `${sayWhen(at)}  #${seq}  by ${by}  ${words}`,
  )
  const card = cardOf(id, state)
  const explained = explain(state, policyOf(state), at, id)
  const against = explained.filter((each) => each.verdict.state !== 'ready')
  const others = explained.filter((each) => each.verdict.state === 'ready')
  const told = lines.length ? lines : ['The journal says nothing of it.']
  const parts = [
    card,
    rulesPart('What the rules have against it, the worst first:', against),
    told,
    rulesPart('The rules that have nothing against it:', others),
  ]
  return `${parts
    .filter((part) => part.length > 0)
    .map((part) => part.join('\n'))
    .join('\n\n')}\n`
}

const rulesPart = (title: string, explained: readonly Explanation[]): string[] =>
  explained.length ? [title, ...explained.flatMap(sayExplanation).map(cleanLine)] : []

/** Cleaned, with the indent that shows what belongs to what. */
const cleanLine = (line: string): string => `${/^ */.exec(line)![0]}${cleanText(line)}`

/** What the books say of it now; empty for an id that is none of these. */
export function cardOf(id: Id, state: State): string[] {
  const element = state.elements.get(id)
  if (element) return elementCard(element, state)
  const member = state.members.get(id)
  if (member) return memberCard(member)
  const seat = state.seats.get(id)
  if (seat) {
    const rider = seat.member === null ? 'nobody' : sayMember(state, seat.member)
    return [
      cleanText(`Riding position ${id}: ${seat.position}`),
      row('Rig', seat.rig),
      row('Rides now', rider),
    ]
  }
  const rig = state.rigs.get(id)
  if (!rig) return []
  return [
    cleanText(`Rig ${id}: ${rig.name}`),
    row('Minimum', `crew of ${rig.minimum}`),
    row('Positions', rig.seats.join(', ')),
  ]
}

const row = (name: string, words: string): string => `  ${name.padEnd(12)}${cleanText(words)}`

function elementCard(element: Element, state: State): string[] {
  const { maker, model, serial, size, made, edition, assembly, inService, ratedPsi, construction } = element
  const label = [
    maker,
    model,
    serial && `serial ${serial}`,
    size && `size ${size}`,
    made ? `made ${made}` : 'month of manufacture not known',
    edition && `edition ${edition}`,
    assembly && `assembly ${assembly}`,
    inService && `in service since ${sayDate(inService)}`,
    ratedPsi && `rated ${ratedPsi} psi`,
    construction,
  ]
  const since = element.issuedOn === null ? '' : `, first issued ${sayDate(element.issuedOn)}`
  const holder = element.issuedTo === null ? 'nobody' : sayMember(state, element.issuedTo)
  const standIn = standInOf(state, element.id)
  return [
    capital(nameOf(element)),
    row('Label', label.filter(Boolean).join(', ')),
    row('Custody', sayCustody(element)),
    row('Issued to', `${holder}${since}`),
    ...(standIn ? [row('Stands in', `at ${standIn.seat}, with ${sayMember(state, standIn.holder)}`)] : []),
    ...(element.tags.length ? [] : [row('Tags open', 'none')]),
    ...element.tags.map(({ reason, matter, at, by }) =>
      row('Tag open', `${reason} (${matter}), ${sayWhen(at)}, by ${sayMember(state, by)}`),
    ),
    row('Parts', factsOf(element.kind).parts.join(', ')),
    row('Look at', pointsOf(element.kind).join('; ')),
  ]
}

function sayCustody(element: Element): string {
  const { custody } = element
  if (!('since' in custody)) {
    return { rack: 'on the rack', issued: 'issued', rig: 'on the rig' }[custody.where]
  }
  const end = custody.where === 'retired' ? `; disposal: ${custody.disposal}` : ''
  return `${sayAbsence(element)}, since ${sayWhen(custody.since.at)}${end}`
}

function memberCard({ id, name, rank, platoon, sizes, seat, fitTests }: Member): string[] {
  const measures = Object.entries(sizes ?? {}).map(([measure, size]) => `${measure} ${size}`)
  const test = fitTests.at(-1)
  const mask = test && `${test.facepiece.model} ${test.facepiece.size} on ${sayDate(test.on)}: ${test.result}`
  return [
    cleanText(`${name} (${id})`),
    row('Rank', rank ?? 'not known'),
    row('Platoon', platoon ?? 'none'),
    row('Sizes', measures.join(', ') || 'not known'),
    row('Rides now', seat ?? 'nowhere'),
    row('Fit test', mask ?? 'none on record'),
  ]
}
