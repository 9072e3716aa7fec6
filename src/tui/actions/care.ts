// Exposures, care and fit tests: what is found out about gear and done to it; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { capital } from '../../domain/decide/decision.ts'
import { EXPOSURES, plain, type Care, type Exposure } from '../../domain/kinds.ts'
import { sayNames } from '../say.ts'
import { confirm, type Action, type Option } from './action.ts'
import { absentOptions, askDay, askElement, needsWords, nobodyHere, noSeat } from './ask.ts'
import {
  awayGroups,
  caresOf,
  chosenIn,
  groupOptions,
  listed,
  NOTHING_LEFT,
  sayCount,
  soiledGroups,
} from './many.ts'
import { askResults, askWho, failedOf, liftsNext, sayResult } from './results.ts'

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
    const exposed = answers['whose'] === 'crew' ? crew : [row]
    const seats = exposed.map((each) => each.seat)
    const names = sayNames(exposed.map((each) => each.name))
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
      `Exposure to ${plain(sort)}${incident && ` at ${incident}`}: ${names}?`,
      [command],
      'Exposure recorded. w sends gear for cleaning, g works out the spares for the crew.',
      [],
      { action: 'send-away' },
    )
  },
}

export const care: Action = {
  id: 'care',
  key: 'k',
  label: 'care',
  help: 'Record a care that was done, of one element or of many: inspection, cleaning, drying, repair or test.',
  next(view, answers) {
    const groups = [...soiledGroups(view), ...awayGroups(view, 'away at')]
    const absent = absentOptions(view.state, (each) => each.custody.where === 'away')
    const also = [...groupOptions(groups), ...absent]
    const asked = askElement(view, answers, 'Care of which element?', also)
    if (asked) return asked
    const elements = chosenIn(view, answers, groups)
    if (!elements.length) return NOTHING_LEFT
    if (answers['care'] === undefined) {
      const options = caresOf(view, elements).map((each) => ({ value: each, label: capital(plain(each)) }))
      return { ask: 'choose', name: 'care', title: `Which care of ${sayCount(elements)}?`, options }
    }
    const day = askDay(view, answers, 'On which day was it done?')
    if (day) return day
    const more = askResults(elements, answers) ?? askWho(elements, answers)
    if (more) return more
    const [done, on] = [answers['care'] as Care, answers['on']!]
    const failed = failedOf(elements, answers)
    const commands = elements.map(({ id }): Command => ({
      do: 'record-care',
      by: view.speaker!,
      element: id,
      care: done,
      on,
      result: failed.has(id) ? 'unserviceable' : 'serviceable',
      who: answers['who']!,
    }))
    const title = `${capital(plain(done))} of ${sayCount(elements)} on ${on}, ${sayResult(elements, failed)}?`
    const recorded = `Recorded ${plain(done)} of ${sayCount(elements)}.`
    return confirm(view, title, commands, recorded, listed(view, elements), liftsNext(elements, failed))
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
