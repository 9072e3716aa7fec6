// Sending away and receiving, issuing and retiring: where gear is and whose; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { capital } from '../../domain/decide/decision.ts'
import { factsOf, plain, wordOf, type Care } from '../../domain/kinds.ts'
import type { Element } from '../../domain/state.ts'
import type { View } from '../view.ts'
import { confirm, type Action, type Answers, type Option, type Step } from './action.ts'
import { absentOptions, askElement, askWords, elementIn, kindsOnTheRack, noSeat } from './ask.ts'
import {
  awayGroups,
  caresOf,
  chosenIn,
  groupOptions,
  lastPlace,
  listed,
  NOTHING_LEFT,
  sayCount,
  soiledGroups,
  these,
} from './many.ts'

export const sendAway: Action = {
  id: 'send-away',
  key: 'w',
  label: 'send away',
  help: 'Send an element, or all that is out of service at the riding position or in its crew, away for care.',
  next(view, answers) {
    const groups = soiledGroups(view)
    const asked = askElement(view, answers, 'Send what away?')
    if (asked?.ask === 'choose' && asked.name === 'element')
      return { ...asked, options: [...groupOptions(groups), ...asked.options] }
    if (asked) return asked
    const elements = chosenIn(view, answers, groups)
    if (!elements.length) return NOTHING_LEFT
    if (answers['for'] === undefined) {
      const options = caresOf(view, elements).map((each) => ({ value: each, label: capital(plain(each)) }))
      return { ask: 'choose', name: 'for', title: `${capital(sayCount(elements))}: for which care?`, options }
    }
    const to = askWords(answers, 'to', 'To whom?', 'the cleaner, the shop', lastPlace(view))
    if (to) return to
    const command: Command = {
      do: 'send-away',
      by: view.speaker!,
      elements: elements.map((each) => each.id),
      to: answers['to']!,
      for: answers['for'] as Care,
    }
    const title = `Send ${sayCount(elements)} to ${answers['to']} for ${plain(answers['for'])}?`
    const isMany = elements.length > 1
    const more = isMany ? ', g works out the spares' : ''
    const done = `${capital(sayCount(elements))} sent to ${answers['to']}. v receives back, x prints the slip${more}.`
    const bags = isMany ? ['Bag it as listed and label each bag; nobody wears it meanwhile.'] : []
    return confirm(view, title, [command], done, [...bags, ...listed(view, elements)])
  },
}

const awayOrHeld = (view: View): Option[] =>
  absentOptions(view.state, ({ custody }) => custody.where === 'away' || custody.where === 'held')

/** One by its id, several together, and where they come from: most likely who cared for them. */
function careFor(elements: readonly Element[]): Record<string, string> {
  const [{ id, custody }] = elements as [Element]
  const from = custody.where === 'away' ? { from: custody.to } : {}
  return { element: elements.length === 1 ? id : these(elements), ...from }
}

const isForRepair = ({ custody }: Element): boolean => custody.where === 'away' && custody.for === 'repair'

export const receiveBack: Action = {
  id: 'receive-back',
  isOfStation: true,
  key: 'v',
  label: 'receive',
  help: 'Receive an element back, or everything from one place; record the care with k.',
  blocked: (view) => (awayOrHeld(view).length ? undefined : 'No element is away or held.'),
  next(view, answers) {
    const groups = awayGroups(view, 'from')
    if (answers['element'] === undefined) {
      const options = [...groupOptions(groups), ...awayOrHeld(view)]
      return { ask: 'choose', name: 'element', title: 'What has come back?', options }
    }
    const elements = chosenIn(view, answers, groups)
    if (!elements.length) return NOTHING_LEFT
    const ids = elements.map((each) => each.id)
    const command: Command = { do: 'receive-back', by: view.speaker!, elements: ids }
    const back = elements.length === 1 ? 'is back' : 'are back'
    const title = `${capital(sayCount(elements))} ${elements.length === 1 ? 'has' : 'have'} come back?`
    // What was held as evidence is not cared for by itself.
    const away = elements.filter((each) => each.custody.where === 'away')
    const next =
      away.length === elements.length
        ? away.some(isForRepair)
          ? 'k records the repair; until then it may not ride.'
          : 'k records the care.'
        : 'What was held is tagged: u lifts the tag once it has been looked over.'
    const done = `${capital(sayCount(elements))} ${back}. ${next}`
    const tended = away.length === elements.length ? { action: 'care', answers: careFor(away) } : undefined
    return confirm(view, title, [command], done, listed(view, elements), tended)
  },
}

export const issue: Action = {
  id: 'issue',
  key: 'i',
  label: 'issue',
  help: 'Issue an element from the rack for good to the member or the riding position.',
  blocked: noSeat,
  next(view, answers) {
    const row = view.row!
    if (answers['kind'] === undefined) {
      const options = kindsOnTheRack(view.state).map((kind) => ({
        value: kind,
        label: capital(wordOf(kind)),
      }))
      return { ask: 'choose', name: 'kind', title: `Issue what to ${row.seat}?`, options }
    }
    const held = [...view.state.elements.values()].filter(
      (each) => each.kind === answers['kind'] && each.custody.where === 'rack',
    )
    if (answers['element'] === undefined) {
      const options = held.map((each) => ({ value: each.id, label: each.id, note: each.size ?? '' }))
      return { ask: 'choose', name: 'element', title: 'Which one?', options }
    }
    const kind = view.state.elements.get(answers['element'])!.kind
    const to = factsOf(kind).held === 'seat' ? row.seat : row.member
    const command: Command = { do: 'issue', by: view.speaker!, element: answers['element'], to: to ?? '-' }
    const whom = factsOf(kind).held === 'seat' ? row.seat : row.name || 'nobody'
    return confirm(
      view,
      `Issue ${answers['element']} to ${whom} for good?`,
      [command],
      `${answers['element']} is issued.`,
    )
  },
}

export const returnToRack: Action = {
  id: 'return-to-rack',
  key: 'y',
  label: 'to the rack',
  help: 'Take an element back from its member for good and hang it on the rack.',
  next(view, answers) {
    const asked = askElement(view, answers, 'Return which element to the rack?')
    if (asked) return asked
    const command: Command = { do: 'return-to-rack', by: view.speaker!, element: elementIn(answers) }
    return confirm(
      view,
      `Return ${command.element} to the rack?`,
      [command],
      `${command.element} is on the rack.`,
    )
  },
}

const OWN_WORDS = 'own words'
const DISPOSALS = [
  'cut up, so that nobody can wear it',
  'kept for training only and marked so',
  'returned to the maker',
]

function askDisposal(answers: Answers): Step | undefined {
  if (answers['disposal'] === undefined) {
    const options = DISPOSALS.map((each) => ({ value: each, label: capital(each) }))
    const other = { value: OWN_WORDS, label: 'In your own words' }
    return { ask: 'choose', name: 'disposal', title: 'How is it disposed of?', options: [...options, other] }
  }
  return answers['disposal'] === OWN_WORDS ? askWords(answers, 'words', 'How is it disposed of?') : undefined
}
const disposalIn = (answers: Answers): string =>
  answers['disposal'] === OWN_WORDS ? answers['words']! : answers['disposal']!

export const retire: Action = {
  id: 'retire',
  key: 'z',
  label: 'retire',
  help: 'Retire an element, with its reason and how it is disposed of.',
  next(view, answers) {
    const asked =
      askElement(view, answers, 'Retire which element?') ??
      askWords(answers, 'reason', 'Why is it retired?') ??
      askDisposal(answers)
    if (asked) return asked
    const element = elementIn(answers)
    const command: Command = {
      do: 'retire',
      by: view.speaker!,
      element,
      reason: answers['reason']!,
      disposal: disposalIn(answers),
    }
    return confirm(view, `Retire ${element} for good?`, [command], `${element} is retired.`)
  },
}
