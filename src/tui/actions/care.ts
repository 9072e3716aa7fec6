// Readings, exposures, care and fit tests: what is found out about gear and done to it; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { capital, nameOf } from '../../domain/decide/decision.ts'
import { EXPOSURES, factsOf, plain, type Care, type Exposure } from '../../domain/kinds.ts'
import type { View } from '../view.ts'
import { confirm, type Action, type Option } from './action.ts'
import {
  absentOptions,
  askDay,
  askElement,
  askWords,
  elementIn,
  needsWords,
  nobodyHere,
  noSeat,
} from './ask.ts'

const cylinderAt = (view: View): string | undefined =>
  view.row?.places.find((place) => place.kind === 'cylinder')?.element ?? undefined

export const psiFault = (text: string): string | undefined =>
  /^\d{1,5}$/.test(text) && Number(text) <= 20_000
    ? undefined
    : `${text || 'Nothing'} is not a pressure. Write it in whole psi, as 4400.`

export const pressure: Action = {
  id: 'pressure',
  key: 'p',
  label: 'pressure',
  help: 'Record the cylinder pressure of the riding position, in psi.',
  blocked: (view) =>
    noSeat(view) ?? (cylinderAt(view) ? undefined : `${view.row!.seat} has no cylinder. s swaps one in.`),
  next(view, answers) {
    const element = cylinderAt(view)!
    const rated = view.state.elements.get(element)?.ratedPsi
    if (answers['psi'] === undefined) {
      const title = `Pressure of cylinder ${element}${rated ? `, rated ${rated} psi` : ''}`
      return { ask: 'write', name: 'psi', title, hint: 'psi, as the gauge reads', fault: psiFault }
    }
    const psi = Number(answers['psi'])
    const command: Command = { do: 'read-pressure', by: view.speaker!, element, psi }
    return confirm(view, `Cylinder ${element} reads ${psi} psi?`, [command], `Read ${psi} psi on ${element}.`)
  },
}

export const exposure: Action = {
  id: 'exposure',
  key: 'e',
  label: 'exposure',
  help: 'Record an exposure of a riding position or a whole crew: smoke, body fluids, hazardous material, water.',
  blocked: noSeat,
  next(view, answers) {
    const [row, rig] = [view.row!, view.rig!]
    const crew = rig.rows.filter((each) => each.member !== null)
    if (answers['whose'] === undefined) {
      const options: Option[] = [
        { value: 'crew', label: `The whole crew of ${rig.name}`, note: `${crew.length} riding positions` },
        { value: 'seat', label: `${row.position} ${row.name}`, note: row.seat, blocked: nobodyHere(view) },
      ]
      return { ask: 'choose', name: 'whose', title: 'Who was exposed?', options }
    }
    if (answers['exposure'] === undefined) {
      const options = EXPOSURES.map((each) => ({ value: each, label: capital(plain(each)) }))
      return { ask: 'choose', name: 'exposure', title: 'To what?', options }
    }
    if (answers['incident'] === undefined) {
      return {
        ask: 'write',
        name: 'incident',
        title: 'At which incident?',
        hint: 'its number or place; may stay empty',
      }
    }
    const seats = answers['whose'] === 'crew' ? crew.map((each) => each.seat) : [row.seat]
    const incident = answers['incident'].trim()
    const sort = answers['exposure'] as Exposure
    const command: Command = {
      do: 'record-exposure',
      by: view.speaker!,
      exposure: sort,
      seats,
      ...(incident && { incident }),
    }
    return confirm(
      view,
      `Exposure to ${plain(sort)}: ${seats.join(', ')}?`,
      [command],
      'Exposure recorded. w sends gear for cleaning.',
    )
  },
}

export const care: Action = {
  id: 'care',
  key: 'k',
  label: 'care',
  help: 'Record a care that was done: inspection, cleaning, drying, repair or test.',
  next(view, answers) {
    const absent = absentOptions(view.state, (each) => each.custody.where === 'away')
    const asked = askElement(view, answers, 'Care of which element?', absent)
    if (asked) return asked
    const element = view.state.elements.get(elementIn(answers))!
    if (answers['care'] === undefined) {
      const options = factsOf(element.kind).cares.map((each) => ({
        value: each,
        label: capital(plain(each)),
      }))
      return { ask: 'choose', name: 'care', title: `Which care of ${nameOf(element)}?`, options }
    }
    const day = askDay(view, answers, 'On which day was it done?')
    if (day) return day
    if (answers['result'] === undefined) {
      const options = [
        { value: 'serviceable', label: 'Serviceable' },
        { value: 'unserviceable', label: 'Unserviceable', note: 'tags it out of service' },
      ]
      return { ask: 'choose', name: 'result', title: 'With what result?', options }
    }
    const who = askWords(answers, 'who', 'Done by whom?', 'a name, a shop')
    if (who) return who
    const done = answers['care'] as Care
    const command: Command = {
      do: 'record-care',
      by: view.speaker!,
      element: element.id,
      care: done,
      on: answers['on']!,
      result: answers['result'] as 'serviceable' | 'unserviceable',
      who: answers['who']!,
    }
    const title = `${capital(plain(done))} of ${nameOf(element)} on ${command.on}, ${command.result}?`
    return confirm(view, title, [command], `Recorded ${plain(done)} of ${element.id}.`)
  },
}

export const fitTest: Action = {
  id: 'fit-test',
  key: 'j',
  label: 'fit test',
  help: 'Record a fit test of the member with the facepiece they have.',
  blocked: nobodyHere,
  next(view, answers) {
    const row = view.row!
    const worn = row.places.find((place) => place.kind === 'facepiece')?.element
    const facepiece = worn ? view.state.elements.get(worn) : undefined
    if (answers['model'] === undefined) {
      return {
        ask: 'write',
        name: 'model',
        title: `Facepiece model ${row.name} was tested with`,
        initial: facepiece?.model ?? '',
        fault: needsWords,
      }
    }
    if (answers['size'] === undefined) {
      return {
        ask: 'write',
        name: 'size',
        title: 'Its size',
        initial: facepiece?.size ?? '',
        fault: needsWords,
      }
    }
    const day = askDay(view, answers, 'On which day?')
    if (day) return day
    if (answers['result'] === undefined) {
      const options = [
        { value: 'pass', label: 'Passed' },
        { value: 'fail', label: 'Failed' },
      ]
      return { ask: 'choose', name: 'result', title: 'With what result?', options }
    }
    const command: Command = {
      do: 'record-fit-test',
      by: view.speaker!,
      member: row.member!,
      facepiece: { model: answers['model'], size: answers['size'] },
      on: answers['on']!,
      result: answers['result'] as 'pass' | 'fail',
    }
    return confirm(
      view,
      `Fit test of ${row.name}: ${command.result}?`,
      [command],
      `Fit test of ${row.name} recorded.`,
    )
  },
}
