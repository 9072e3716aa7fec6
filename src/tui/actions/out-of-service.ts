// Finding, tagging, lifting, holding: what the officer says of gear that must not be worn; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { capital, nameOf } from '../../domain/decide/decision.ts'
import { inCallOrder } from '../../domain/roll-call.ts'
import type { Element } from '../../domain/state.ts'
import type { View } from '../view.ts'
import { confirm, refusalOf, type Action, type Follow, type Option, type Step } from './action.ts'
import {
  absentOptions,
  askElement,
  askMatter,
  askPoint,
  askWords,
  elementIn,
  nobodyHere,
  pointIn,
} from './ask.ts'

export const finding: Action = {
  id: 'finding',
  key: 'f',
  label: 'finding',
  help: 'Answer the riding position with a finding: which element, what is wrong. It is tagged out of service.',
  blocked: (view) => nobodyHere(view) ?? refusalOf(view, { do: 'answer', seat: view.row!.seat }),
  next(view, answers) {
    const by = view.speaker!
    if (answers['element'] === undefined) {
      const { options } = askElement(view, answers, '') as Extract<Step, { ask: 'choose' }>
      return {
        ask: 'choose',
        name: 'element',
        title: 'A finding on which element?',
        options: inOrderOf(view, options.slice(0, -1)),
      }
    }
    const element = view.state.elements.get(answers['element'])!
    const asked = askPoint(element, answers) ?? askMatter(answers)
    if (asked) return asked
    const found = {
      element: element.id,
      point: pointIn(answers),
      matter: answers['matter'] as 'safety' | 'compliance',
    }
    const command: Command = { do: 'answer', by, seat: view.row!.seat, findings: [found] }
    const title = `${capital(nameOf(element))}: ${found.point} (${found.matter}). Tag it out of service?`
    return confirm(view, title, [command], sayTagged(element), [], sparesFor(view, element))
  },
}

const sayTagged = ({ id }: Element): string => `Tagged ${id}. s puts a spare in.`

/** What fits in its place is shown at once, where it is worn at the riding position in hand. */
const sparesFor = ({ row }: View, { id, kind }: Element): Follow | undefined =>
  row?.member !== null && row?.places.some((each) => each.element === id)
    ? { action: 'swap', answers: { kind } }
    : undefined

/** As it is called: the riding position's gear in the order it is put on. */
function inOrderOf({ row }: View, options: Option[]): Option[] {
  const order = inCallOrder(row!.places).map((each) => each.element)
  return options.toSorted((a, b) => order.indexOf(a.value) - order.indexOf(b.value))
}

export const tag: Action = {
  id: 'tag',
  key: 't',
  label: 'tag',
  help: 'Tag an element out of service, with its reason.',
  next(view, answers) {
    const asked = askElement(view, answers, 'Tag which element out of service?')
    if (asked) return asked
    const element = view.state.elements.get(elementIn(answers))!
    const more = askPoint(element, answers) ?? askMatter(answers)
    if (more) return more
    const matter = answers['matter'] as 'safety' | 'compliance'
    const reason = pointIn(answers)
    const command: Command = { do: 'tag', by: view.speaker!, element: element.id, reason, matter }
    const title = `${capital(nameOf(element))}: ${reason} (${matter}). Tag it out of service?`
    return confirm(view, title, [command], sayTagged(element), [], sparesFor(view, element))
  },
}

const tagged = (view: View): Option[] =>
  [...view.state.elements.values()]
    .filter((each) => each.tags.length && each.custody.where !== 'retired')
    .map((each) => ({
      value: each.id,
      label: capital(nameOf(each)),
      note: each.tags.map((one) => one.reason).join('; '),
    }))

export const lift: Action = {
  id: 'lift',
  isOfStation: true,
  key: 'u',
  label: 'untag',
  help: 'Lift the tag of an element, on a stated basis.',
  blocked: (view) => (tagged(view).length ? undefined : 'No element is tagged.'),
  next(view, answers) {
    if (answers['element'] === undefined) {
      return {
        ask: 'choose',
        name: 'element',
        title: 'Lift the tag of which element?',
        options: tagged(view),
      }
    }
    const element = view.state.elements.get(answers['element'])!
    const asked = askWords(
      answers,
      'basis',
      'On what basis?',
      'who mended or inspected it, and how it is known to be good',
    )
    if (asked) return asked
    const basis = answers['basis']!
    const tags = element.tags.map((each) => each.seq)
    const command: Command = { do: 'lift-tag', by: view.speaker!, element: element.id, basis, tags }
    const many = tags.length === 1 ? 'the tag' : `all ${tags.length} tags`
    const title = `Lift ${many} of ${nameOf(element)}: ${basis}?`
    const reasons = element.tags.map((each) => `Tagged: ${each.reason} (${each.matter}).`)
    return confirm(view, title, [command], `Lifted ${many} of ${element.id}.`, reasons)
  },
}

export const hold: Action = {
  id: 'hold',
  key: 'd',
  label: 'hold',
  help: 'Hold an element as evidence: gear of an injured or fallen member. Isolate, bag, tag; do not clean.',
  next(view, answers) {
    const asked =
      askElement(view, answers, 'Hold which element as evidence?', absentOptions(view.state, isAway)) ??
      askWords(answers, 'reason', 'Why is it held?', 'isolate, bag and tag it; do not clean it')
    if (asked) return asked
    const command: Command = {
      do: 'hold',
      by: view.speaker!,
      element: elementIn(answers),
      reason: answers['reason']!,
    }
    return confirm(view, `Hold ${command.element} as evidence?`, [command], `${command.element} is held.`)
  },
}

const isAway = (element: { custody: { where: string } }): boolean => element.custody.where === 'away'
