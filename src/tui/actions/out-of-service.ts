// Finding, tagging, lifting, holding: what the officer says of gear that must not be worn; it must never record by itself.
import type { Command } from '../../domain/commands.ts'
import { capital, nameOf } from '../../domain/decide/decision.ts'
import { plain } from '../../domain/kinds.ts'
import { inCallOrder } from '../../domain/roll-call.ts'
import { isHere, type Element } from '../../domain/state.ts'
import { sayDate } from '../../domain/time.ts'
import type { View } from '../view.ts'
import {
  confirm,
  refusalOf,
  type Action,
  type Answers,
  type Follow,
  type Option,
  type Step,
} from './action.ts'
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
import { cylinderAt, readingOf } from './pressure.ts'
import { chosenIn, groupOptions, listed, NOTHING_LEFT, sayCount, type Group } from './many.ts'

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
    // A pressure typed before the finding is recorded with it.
    const read = answers['psi'] === undefined ? undefined : readingOf(view, cylinderAt(view)!, answers['psi'])
    const notes = read ? [`${read.said}: that is recorded with it.`, ...read.doubts] : []
    const commands = read ? [read.command, command] : [command]
    const done = [sayTagged(element), ...(read ? [read.done] : [])].join(' ')
    return confirm(view, title, commands, done, notes, sparesFor(view, element))
  },
}

const sayTagged = ({ id }: Element): string => `Tagged ${id} out of service.`

/** What fits in its place is shown at once, where it is worn at the riding position in hand. */
const sparesFor = ({ row }: View, { id, kind }: Element): Follow | undefined =>
  row?.member !== null && row?.places.some((each) => each.element === id)
    ? { action: 'swap', answers: { kind }, later: 'After the roll, s on the board puts a spare in.' }
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

const OWN_WORDS = 'own words'

/** What was done to it since it was tagged and passed, as its record says; or the officer's own words. */
function askBasis(element: Element, answers: Answers): Step | undefined {
  const title = 'On what basis?'
  const first = Math.min(...element.tags.map((each) => each.seq))
  const bases = element.cares
    .filter((each) => each.seq > first && each.result === 'serviceable')
    .toReversed()
    .map(({ care, on, who, seq }) => `${plain(care)} on ${sayDate(on)}${who ? ` by ${who}` : ''}, #${seq}`)
  const hint = 'who mended or inspected it, and how it is known to be good'
  if (!bases.length) return askWords(answers, 'basis', title, hint)
  if (answers['basis'] === undefined) {
    const options: Option[] = [
      ...bases.map((each) => ({ value: each, label: capital(each), note: 'recorded as serviceable' })),
      { value: OWN_WORDS, label: 'In your own words' },
    ]
    return { ask: 'choose', name: 'basis', title, options }
  }
  return answers['basis'] === OWN_WORDS ? askWords(answers, 'words', title, hint) : undefined
}

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
    const asked = askBasis(element, answers)
    if (asked) return asked
    const basis = answers['basis'] === OWN_WORDS ? answers['words']! : answers['basis']!
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
    const groups = wornGroup(view)
    const also = [...groupOptions(groups), ...absentOptions(view.state, isAway)]
    const asked =
      askElement(view, answers, 'Hold which element as evidence?', also) ??
      askWords(answers, 'reason', 'Why is it held?', 'isolate, bag and tag it; do not clean it')
    if (asked) return asked
    const elements = chosenIn(view, answers, groups)
    if (!elements.length) return NOTHING_LEFT
    const reason = answers['reason']!
    const commands = elements.map(({ id }): Command => ({
      do: 'hold',
      by: view.speaker!,
      element: id,
      reason,
    }))
    const [first] = elements
    const what = elements.length === 1 ? first!.id : sayCount(elements)
    const done = `${capital(what)} ${elements.length === 1 ? 'is' : 'are'} held.`
    return confirm(view, `Hold ${what} as evidence?`, commands, done, listed(view, elements))
  },
}

/** Of an injured or fallen member everything is held. */
function wornGroup({ row, state }: View): Group[] {
  const worn = row?.places.flatMap((each) => each.element ?? []) ?? []
  const ids = worn.filter((id) => isHere(state.elements.get(id)!))
  return ids.length > 1 ? [{ value: ALL_WORN, label: 'Everything at this riding position', ids }] : []
}
const ALL_WORN = 'all worn'

const isAway = (element: { custody: { where: string } }): boolean => element.custody.where === 'away'
