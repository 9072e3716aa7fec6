// What the officer writes, takes away and looks up: notes, the exported log, a card.
import { lastTour, type Element, type State } from '../../domain/state.ts'
import type { Command } from '../../domain/commands.ts'
import { capital, nameOf } from '../../domain/decide/decision.ts'
import { cleanText } from '../../domain/clean.ts'
import { labelled } from '../../domain/labels.ts'
import { keepLast } from '../keep-last.ts'
import type { View } from '../view.ts'
import { confirm, type Action, type Option } from './action.ts'
import { askWords } from './ask.ts'

export const note: Action = {
  id: 'note',
  isOfStation: true,
  key: 'n',
  label: 'note',
  help: 'Write a note into the log.',
  next(view, answers) {
    const asked = askWords(answers, 'text', 'The note')
    if (asked) return asked
    const command: Command = { do: 'note', by: view.speaker!, text: answers['text']! }
    return confirm(view, 'Write this note into the log?', [command], 'Noted.', [answers['text']!])
  },
}

export const exportLog: Action = {
  id: 'export',
  isOfStation: true,
  recordsNothing: true,
  key: 'x',
  label: 'export',
  help: "Export the readiness log, or print tags or a care slip, into the station's folder.",
  blocked: (view) =>
    exportsIn(view).some((each) => each.blocked === undefined)
      ? undefined
      : 'There has been no tour yet, so there is no log to export.',
  next(view, answers) {
    const format = answers['format']
    if (format === undefined) {
      const tour = lastTour(view.state)
      const title = tour ? `Export the readiness log of ${tour}, or print what?` : 'Print what?'
      return { ask: 'choose', name: 'format', title, options: exportsIn(view) }
    }
    const paper = PAPERS.find((each) => each.value === format)
    const title = paper ? `Print ${paper.as}?` : `Export it as ${format}?`
    const file = paper ? 'The PDF goes' : 'The file goes'
    const rows = format === 'care-slip' ? ' The rows that the cleaner fills in go beside it, as CSV.' : ''
    const lines = [{ text: `${file} into the folder "exports" of the station.${rows}` }]
    return { ask: 'confirm', title, lines, deed: { export: format } }
  },
}

const LOGS = [
  { value: 'text', label: 'Text', note: 'to read or mail' },
  { value: 'csv', label: 'CSV', note: 'for a spreadsheet' },
  { value: 'pdf', label: 'PDF', note: 'to print and sign' },
  { value: 'json', label: 'JSON', note: 'for another program' },
] as const

/** What is printed besides the log, and when there is any of it. */
const PAPERS: readonly {
  value: string
  label: string
  as: string
  isOf: (element: Element) => boolean
  none: string
}[] = [
  {
    value: 'out-of-service-tag',
    label: 'Out-of-service tags',
    as: 'a tag for everything that is tagged out of service',
    isOf: ({ tags }) => tags.length > 0,
    none: 'nothing is tagged',
  },
  {
    value: 'bag-tag',
    label: 'Bag tags',
    as: 'a bag tag for everything contaminated, wet or held',
    isOf: ({ exposures, custody }) => exposures.length > 0 || custody.where === 'held',
    none: 'nothing was exposed or is held',
  },
  {
    value: 'care-slip',
    label: 'Care slip',
    as: 'the care slip of what was sent away last',
    isOf: ({ custody }) => custody.where === 'away',
    none: 'nothing is away',
  },
]

function exportsIn({ state }: View): Option[] {
  const living = [...state.elements.values()].filter((each) => each.custody.where !== 'retired')
  const noLog = state.tours.size ? undefined : 'there has been no tour yet, so there is no log'
  return [
    ...LOGS.map((each) => ({ ...each, blocked: noLog })),
    ...PAPERS.map(({ value, label, isOf, none }) => ({
      value,
      label,
      note: 'to print, as PDF',
      blocked: living.some(isOf) ? undefined : none,
    })),
  ]
}

/** Everything that has an id: of a large department long, and asked for again whenever a card is left. */
const keptNames = keepLast<Option[]>()
function everyName(state: State): Option[] {
  const elements = [...state.elements.values()].map((each) => ({
    value: each.id,
    label: capital(nameOf(each)),
    note: [each.size, each.serial, each.issuedTo ?? each.custody.where].filter(Boolean).join(', '),
  }))
  const members = [...state.members.values()].map((each) => ({
    value: each.id,
    label: `${each.name} (${each.id})`,
    note: [each.rank, each.platoon && `platoon ${each.platoon}`].filter(Boolean).join(', '),
  }))
  const seats = [...state.seats.values()].map((each) => ({
    value: each.id,
    label: each.id,
    note: each.position,
  }))
  return [...members, ...seats, ...elements]
}

export const find: Action = {
  id: 'find',
  isOfStation: true,
  recordsNothing: true,
  key: '/',
  label: 'find',
  help: 'Find an element, a member or a riding position by id, name or serial; or scan its label.',
  next({ state }, answers) {
    if (answers['id'] !== undefined) return { ask: 'done', deed: { card: answers['id'] } }
    return {
      ask: 'choose',
      name: 'id',
      title: 'Find what? Type part of an id, a name or a serial',
      options: keptNames([state], () => everyName(state)),
    }
  },
}

/** Started by a scan that means several things: the code is the first answer. */
export const which: Action = {
  id: 'which',
  isOfStation: true,
  recordsNothing: true,
  key: '',
  label: 'which one',
  help: 'Several labels here carry what was scanned: choose one by its number.',
  next({ state }, answers) {
    if (answers['id'] !== undefined) return { ask: 'done', deed: { card: answers['id'] } }
    const code = answers['code']!
    const options = labelled(state, code).map(({ id, name }) => ({ value: id, label: name }))
    const title = `Read "${cleanText(code)}": ${options.length} things here carry it. Which one?`
    return { ask: 'choose', name: 'id', title, options, isNumbered: true }
  },
}
