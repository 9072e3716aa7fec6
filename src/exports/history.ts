// All that happened to one element, member, riding position or rig, in the order of the journal; it must never skip an event.
import { cleanText } from '../domain/clean.ts'
import { sayMember } from '../domain/decide/decision.ts'
import type { Event } from '../domain/events.ts'
import { explain, sayExplanation, type Explanation } from '../domain/explain.ts'
import type { Id } from '../domain/gear.ts'
import { policyOf } from '../domain/policy/in-force.ts'
import type { State } from '../domain/state.ts'
import { sayImported } from '../domain/tell-import.ts'
import { tell } from '../domain/tell.ts'
import type { Instant } from '../domain/time.ts'
import { cardOf } from './card.ts'
import { sayWhen } from './said.ts'
import { taughtOf } from './taught.ts'

interface HistoryLine {
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
    const words = wordsAbout(event, state, id)
    return { seq, at: cleanText(at), by: cleanText(sayMember(state, by)), type, words: cleanText(words) }
  })
}

/** The event as a sentence; one about many things names only the first few of them, so this one is named after it. */
export function wordsAbout(event: Event, state: State, id: Id): string {
  const sentence = tell(event, state)
  const isImport = event.type === 'gear-imported' || event.type === 'records-imported'
  const own = isImport ? sayImported(event.data, id).join('; ') : ''
  const named = own || (namesIt(sentence, id) ? '' : `(${id} is one of these.)`)
  return `${sentence} ${named}`.trimEnd()
}

const namesIt = (sentence: string, id: Id): boolean =>
  sentence.split(/[^A-Za-z0-9_.-]+/).some((each) => each === id || each === `${id}.`)

const sayLines = (lines: readonly HistoryLine[]): string[] =>
  lines.map(({ seq, at, by, words }) => `${sayWhen(at)}  #${seq}  by ${by}  ${words}`)

/**
 * The card of what it is now and what the rules have against it `at` this instant, with its arithmetic; a line an
 * event, `2026-11-24 07:02  #41  by A. Varga (M-104)  Tagged ...`; then the rules that have nothing against it.
 */
export function historyText(events: Iterable<Event>, state: State, id: Id, at: Instant): string {
  const lines = sayLines(historyLines(events, state, id))
  const { against, others } = rulesOf(state, id, at)
  const told = lines.length ? lines : ['The journal says nothing of it.']
  return joined([cardOf(id, state), against, told, others])
}

/** The same to be read at the board: what it is for and how to look at it, and what happened last comes first. */
export function cardText(events: Iterable<Event>, state: State, id: Id, at: Instant): string {
  const lines = sayLines(historyLines(events, state, id)).toReversed()
  const { against, others } = rulesOf(state, id, at)
  const element = state.elements.get(id)
  const told = lines.length ? ['What happened, the newest first:', ...lines] : []
  return joined([cardOf(id, state), against, ...(element ? taughtOf(element.kind) : []), told, others])
}

const joined = (parts: readonly string[][]): string =>
  `${parts
    .filter((part) => part.length > 0)
    .map((part) => part.join('\n'))
    .join('\n\n')}\n`

function rulesOf(state: State, id: Id, at: Instant): { against: string[]; others: string[] } {
  const explained = explain(state, policyOf(state), at, id)
  const isReady = ({ verdict }: Explanation): boolean => verdict.state === 'ready'
  return {
    against: rulesPart(
      'What the rules have against it, the worst first:',
      explained.filter((each) => !isReady(each)),
    ),
    others: rulesPart('The rules that have nothing against it:', explained.filter(isReady)),
  }
}

const rulesPart = (title: string, explained: readonly Explanation[]): string[] =>
  explained.length ? [title, ...explained.flatMap(sayExplanation).map(cleanLine)] : []

/** Cleaned, with the indent that shows what belongs to what. */
const cleanLine = (line: string): string => `${/^ */.exec(line)![0]}${cleanText(line)}`
