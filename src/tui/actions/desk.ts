// What the officer writes, takes away and looks up: notes, the exported log, a card.
import { lastTour } from '../../domain/state.ts'
import type { Command } from '../../domain/commands.ts'
import { capital, nameOf } from '../../domain/decide/decision.ts'
import { cleanText } from '../../domain/clean.ts'
import { labelled } from '../../domain/labels.ts'
import { confirm, type Action } from './action.ts'
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
  help: "Export the readiness log of this tour, or of the last one, into the station's folder.",
  blocked: ({ state }) =>
    state.tours.size ? undefined : 'There has been no tour yet, so there is no log to export.',
  next(view, answers) {
    if (answers['format'] === undefined) {
      const options = [
        { value: 'text', label: 'Text', note: 'to read or mail' },
        { value: 'csv', label: 'CSV', note: 'for a spreadsheet' },
        { value: 'pdf', label: 'PDF', note: 'to print and sign' },
        { value: 'json', label: 'JSON', note: 'for another program' },
      ]
      const tour = lastTour(view.state)
      return { ask: 'choose', name: 'format', title: `Export the readiness log of ${tour} as what?`, options }
    }
    const lines = [{ text: 'The file goes into the folder "exports" of the station.' }]
    return {
      ask: 'confirm',
      title: `Export it as ${answers['format']}?`,
      lines,
      deed: { export: answers['format'] },
    }
  },
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
    return {
      ask: 'choose',
      name: 'id',
      title: 'Find what? Type part of an id, a name or a serial',
      options: [...members, ...seats, ...elements],
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
