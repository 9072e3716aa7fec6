// Decides what a filled-in care slip brings back: all of its rows or none of them. It must never take a care that a single command would refuse.
import type { CommandOf, Dated } from '../commands.ts'
import type { Id } from '../gear.ts'
import { plain, type Care } from '../kinds.ts'
import type { Element, State } from '../state.ts'
import { dateOf, sayDate, type LocalDate } from '../time.ts'
import { findLiving, Name, record, refuse, sayAbsence, type Decision } from './decision.ts'
import { careFault } from './gear.ts'

type Batch = Pick<CommandOf<'receive-batch'>, 'elements' | 'cares'>

/** Why one row cannot be taken, and which of its columns says so. `row` counts the cares, then the elements without one. */
interface BatchFault {
  element: Id
  care?: Care
  column: 'element' | 'care' | 'on'
  says: string
}

/** Every element and care that cannot be taken, in the order in which they are given. */
export function batchFaults({ elements, cares }: Batch, state: State, today: LocalDate): BatchFault[] {
  const faults: BatchFault[] = []
  const away = new Map<Id, Element>()
  for (const id of new Set(elements)) {
    const element = awayAt(state, id)
    if (typeof element === 'string') faults.push({ element: id, column: 'element', says: element })
    else away.set(id, element)
  }
  const seen = new Set<string>()
  for (const { element: id, care, on } of cares) {
    const row = { element: id, care }
    const element = away.get(id)
    if (seen.has(`${id} ${care}`)) {
      faults.push({ ...row, column: 'care', says: `${id} has two rows for ${plain(care)}.` })
    } else if (element) {
      const wrong = careFault(element, care, on, today) ?? tooEarly(element, on)
      if (wrong) faults.push({ ...row, column: wrong.startsWith('No ') ? 'care' : 'on', says: wrong })
    } else if (!elements.includes(id)) {
      faults.push({ ...row, column: 'element', says: `${id} has a care but is not among what came back.` })
    }
    seen.add(`${id} ${care}`)
  }
  return faults
}

function awayAt(state: State, id: Id): Element | string {
  const element = findLiving(state, id)
  if (typeof element === 'string') return element
  if (element.custody.where === 'held') {
    return `${Name(element)} is ${sayAbsence(element)}: it is not received with a batch, and it should not have been cleaned.`
  }
  return element.custody.where === 'away' ? element : `${Name(element)} is not away, so it cannot come back.`
}

function tooEarly(element: Element, on: LocalDate): string | undefined {
  const { custody } = element
  if (custody.where !== 'away') return undefined
  const sent = dateOf(custody.since.at)
  return on < sent
    ? `${Name(element)} was sent away on ${sayDate(sent)}: a care on ${sayDate(on)} was not done there.`
    : undefined
}

export function receiveBatch(command: Dated<CommandOf<'receive-batch'>>, state: State): Decision {
  const { elements, cares, file, at } = command
  const [fault] = batchFaults(command, state, dateOf(at))
  if (fault) return refuse(`${fault.says} Nothing was recorded.`)
  return record('batch-received', {
    elements: [...new Set(elements)],
    cares: cares.map(({ element, care, on, result, who, note }) => ({
      element,
      care,
      on,
      result,
      ...(who !== undefined && { who }),
      ...(note !== undefined && { note }),
    })),
    ...(file !== undefined && { file }),
  })
}
