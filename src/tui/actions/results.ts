// What came of a care done on one element or on many: all of one result, or all but some; it must never presume one.
import { capital, nameOf } from '../../domain/decide/decision.ts'
import type { Id } from '../../domain/gear.ts'
import type { Element } from '../../domain/state.ts'
import { sayNames } from '../say.ts'
import type { Answers, Follow, Option, Step } from './action.ts'
import { askWords } from './ask.ts'

const THAT_IS_ALL = 'that is all'

/** One result for all, or the ones that failed named one by one. */
export function askResults(elements: readonly Element[], answers: Answers): Step | undefined {
  const many = elements.length > 1
  if (answers['result'] === undefined) {
    const options: Option[] = [
      { value: 'serviceable', label: 'Serviceable', note: many ? 'all of them' : '' },
      {
        value: 'unserviceable',
        label: 'Unserviceable',
        note: `${many ? 'all of them; ' : ''}tags it out of service`,
      },
      ...(many
        ? [{ value: 'some', label: 'All serviceable but some', note: 'you name those that failed' }]
        : []),
    ]
    return { ask: 'choose', name: 'result', title: 'With what result?', options }
  }
  if (answers['result'] !== 'some') return undefined
  const named = namedIn(answers)
  if (named.includes(THAT_IS_ALL)) return undefined
  const left = elements.filter((each) => !named.includes(each.id))
  const options = left.map((each): Option => ({
    value: each.id,
    label: capital(nameOf(each)),
    note: each.size ?? '',
  }))
  const all: Option = { value: THAT_IS_ALL, label: 'That is all of them' }
  const title = named.length ? `Failed: ${named.join(', ')}. Which one more?` : 'Which one failed?'
  return {
    ask: 'choose',
    name: `failed ${named.length}`,
    title,
    options: named.length ? [all, ...options] : options,
  }
}

const namedIn = (answers: Answers): string[] =>
  Object.entries(answers).flatMap(([name, value]) => (name.startsWith('failed ') ? value : []))

export function failedOf(elements: readonly Element[], answers: Answers): Set<Id> {
  const all = elements.map((each) => each.id)
  if (answers['result'] === 'some') return new Set(namedIn(answers).filter((each) => all.includes(each)))
  return new Set(answers['result'] === 'unserviceable' ? all : [])
}

/** Whoever has it, or last had it, is proposed. */
export function askWho(elements: readonly Element[], answers: Answers): Step | undefined {
  const [first] = elements
  const place = first?.custody.where === 'away' ? first.custody.to : (answers['from'] ?? '')
  return askWords(answers, 'who', 'Done by whom?', 'a name, a shop', place)
}

export function sayResult(elements: readonly Element[], failed: ReadonlySet<Id>): string {
  if (!failed.size) return 'serviceable'
  if (failed.size === elements.length) return 'unserviceable'
  return `serviceable but ${sayNames([...failed])}`
}

/** What passed and is still tagged may have its tag lifted on that basis next. */
export function liftsNext(elements: readonly Element[], failed: ReadonlySet<Id>): Follow | undefined {
  const [first, ...more] = elements.filter((each) => each.tags.length && !failed.has(each.id))
  return first && !more.length ? { action: 'lift', answers: { element: first.id } } : undefined
}
