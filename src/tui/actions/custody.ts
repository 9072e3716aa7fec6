// Sending away and receiving, issuing and retiring: where gear is and whose; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { capital } from '../../domain/decide/decision.ts'
import { factsOf, plain, wordOf, type Care } from '../../domain/kinds.ts'
import { isHere } from '../../domain/state.ts'
import type { View } from '../view.ts'
import { confirm, type Action, type Option } from './action.ts'
import {
  absentOptions,
  askElement,
  askWords,
  elementIn,
  elementOptions,
  kindsOnTheRack,
  noSeat,
} from './ask.ts'

const ALL = 'all'

/** What at the riding position in hand carries a tag or an exposure; a date alone sends nothing away. */
const soiledAt = (view: View): string[] =>
  elementOptions(view)
    .map((each) => each.value)
    .filter((id) => {
      const element = view.state.elements.get(id)!
      return isHere(element) && (element.tags.length > 0 || element.exposures.length > 0)
    })

export const sendAway: Action = {
  id: 'send-away',
  key: 'w',
  label: 'send away',
  help: 'Send an element, or all that is tagged or exposed at the riding position, away for care.',
  next(view, answers) {
    const soiled = view.row ? soiledAt(view) : []
    const all: Option[] =
      soiled.length > 1
        ? [{ value: ALL, label: 'All that is tagged or exposed here', note: soiled.join(', '), tone: 'bad' }]
        : []
    const asked = askElement(view, answers, 'Send which element away?', all)
    if (asked) return asked
    const elements = answers['element'] === ALL ? soiled : [elementIn(answers)]
    if (answers['for'] === undefined) {
      const kinds = elements.map((id) => factsOf(view.state.elements.get(id)!.kind).cares)
      const cares = kinds[0]!.filter((each) => kinds.every((list) => list.includes(each)))
      const options = cares.map((each) => ({ value: each, label: capital(plain(each)) }))
      return { ask: 'choose', name: 'for', title: 'For which care?', options }
    }
    const to = askWords(answers, 'to', 'To whom?', 'the cleaner, the shop')
    if (to) return to
    const command: Command = {
      do: 'send-away',
      by: view.speaker!,
      elements,
      to: answers['to']!,
      for: answers['for'] as Care,
    }
    const title = `Send ${elements.join(', ')} to ${answers['to']} for ${plain(answers['for'])}?`
    return confirm(view, title, [command], `${elements.join(', ')} sent away.`)
  },
}

const awayOrHeld = (view: View): Option[] =>
  absentOptions(view.state, ({ custody }) => custody.where === 'away' || custody.where === 'held')

export const receiveBack: Action = {
  id: 'receive-back',
  isOfStation: true,
  key: 'v',
  label: 'receive',
  help: 'Receive an element back; record its care with k.',
  blocked: (view) => (awayOrHeld(view).length ? undefined : 'No element is away or held.'),
  next(view, answers) {
    if (answers['element'] === undefined) {
      return { ask: 'choose', name: 'element', title: 'What has come back?', options: awayOrHeld(view) }
    }
    const element = answers['element']
    const command: Command = { do: 'receive-back', by: view.speaker!, elements: [element] }
    return confirm(view, `${element} has come back?`, [command], `${element} is back. k records its care.`)
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

export const retire: Action = {
  id: 'retire',
  key: 'z',
  label: 'retire',
  help: 'Retire an element, with its reason and how it is disposed of.',
  next(view, answers) {
    const asked =
      askElement(view, answers, 'Retire which element?') ??
      askWords(answers, 'reason', 'Why is it retired?') ??
      askWords(
        answers,
        'disposal',
        'How is it disposed of?',
        'cut up, for training only, returned to the maker',
      )
    if (asked) return asked
    const element = elementIn(answers)
    const command: Command = {
      do: 'retire',
      by: view.speaker!,
      element,
      reason: answers['reason']!,
      disposal: answers['disposal']!,
    }
    return confirm(view, `Retire ${element} for good?`, [command], `${element} is retired.`)
  },
}
