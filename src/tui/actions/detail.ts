// A member detailed in from another station, with the gear they brought: a short sheet; it must never presume a date or a size.
import { capital } from '../../domain/decide/decision.ts'
import { takenBy } from '../../domain/decide/setting-up.ts'
import { idShape } from '../../domain/gear.ts'
import { familyOf, wordOf, type Kind } from '../../domain/kinds.ts'
import { dateOf, isLocalDate } from '../../domain/time.ts'
import type { View } from '../view.ts'
import type { Answers, Option, Step } from './action.ts'
import { needsWords } from './ask.ts'
import { BROUGHT, kindsIn, lineOf, readLine, readSizes, written } from './brought.ts'

const DONE = 'that is all'
const isKind = (answer: string | undefined): answer is Kind => BROUGHT.some((kind) => kind === answer)

function idFault({ state }: View, text: string, others: readonly string[] = []): string | undefined {
  if (!idShape.safeParse(text).success)
    return `${text || 'Nothing'} is not an id: letters, digits, "-", "_" and ".".`
  const taken = takenBy(state, text)
  if (taken) return `${taken}.`
  return others.includes(text) ? `${text} is named already.` : undefined
}

const dayFault =
  (view: View) =>
  (text: string): string | undefined => {
    if (!text) return undefined
    if (!isLocalDate(text)) return `${text} is not a date. Write it as ${dateOf(view.at)}, or leave it empty.`
    return text > dateOf(view.at) ? 'That day is still to come.' : undefined
  }

const NOT_KNOWN = 'empty: not known; then unproven, unless a label shows it in date'

/** The questions, while an answer is missing. */
export function askDetailed(view: View, answers: Answers): Step | undefined {
  const write = (
    name: string,
    title: string,
    hint: string,
    fault: (text: string) => string | undefined,
  ): Step | undefined =>
    answers[name] === undefined ? { ask: 'write', name, title, hint, fault } : undefined
  const day = (name: string, title: string): Step | undefined =>
    write(name, title, `year-month-day, as ${dateOf(view.at)}; ${NOT_KNOWN}`, dayFault(view))
  return (
    write('name', 'Their name?', 'as it stands on the riding list', needsWords) ??
    write('id', 'Their id?', 'as on their badge', (text) => idFault(view, text)) ??
    write(
      'sizes',
      'Their sizes?',
      'as: coat 44x32, trousers 38x30, gloves 76W, boots 11D; may stay empty',
      (text) => {
        const sizes = readSizes(text)
        return typeof sizes === 'string' ? sizes : undefined
      },
    ) ??
    askBrought(view, answers) ??
    (kindsIn(answers).length
      ? (askAssembly(answers) ??
        day(
          'inspected',
          'When was the last advanced inspection of all the gear they brought, by its own record?',
        ) ??
        day(
          'cleaned',
          'When was the last advanced cleaning of all the gear they brought, by its own record?',
        ) ??
        (kindsIn(answers).some((kind) => kind.endsWith('-liner'))
          ? day('liners', 'When was the last complete inspection of the liners they brought?')
          : undefined) ??
        (written(answers, 'facepiece') === undefined
          ? undefined
          : day('fitTest', 'When was their last fit test with the facepiece they brought?')))
      : undefined)
  )
}

/** Kind by kind in any order, each on one line; a scan fills in its id. */
function askBrought(view: View, answers: Answers): Step | undefined {
  const open = Object.entries(answers).findLast(([name]) => name.startsWith('kind '))?.[1]
  if (open === DONE) return undefined
  if (isKind(open) && written(answers, open) === undefined) {
    const others = [
      answers['id']!,
      ...kindsIn(answers).map((kind) => readLine(kind, written(answers, kind)!).id),
    ]
    return {
      ask: 'write',
      name: lineOf(open),
      title: `${capital(wordOf(open))}: its id, then its size, the month it was made, its model`,
      hint: 'as: C-5001 44x32 2021-03; a scan fills in the id; what is left away is unproven',
      isScanned: true,
      fault: (text) => idFault(view, readLine(open, text).id, others),
    }
  }
  const brought = kindsIn(answers)
  const options = BROUGHT.map((kind): Option => {
    const line = written(answers, kind)
    return {
      value: kind,
      label: capital(wordOf(kind)),
      note: line ?? 'not named yet',
      blocked: line && `${line}, named already`,
    }
  })
  const all: Option = {
    value: DONE,
    label: brought.length ? 'That is all they brought' : 'They brought nothing',
  }
  const name = `kind ${brought.length}`
  const title = 'What gear have they brought? What is missing can come from the rack with s.'
  // What is next is in hand, so that Enter goes on down the list.
  const next = options.findIndex((each) => !each.blocked)
  return { ask: 'choose', name, title, options: [...options, all], start: next < 0 ? options.length : next }
}

/** Layers are one assembly only where somebody has read so on their labels. */
function askAssembly(answers: Answers): Step | undefined {
  const isLayered = kindsIn(answers).some(
    (kind) => familyOf(kind).filter((each) => written(answers, each) !== undefined).length > 1,
  )
  if (!isLayered || answers['assembly'] !== undefined) return undefined
  const options: Option[] = [
    { value: 'yes', label: 'Yes, their labels say so' },
    { value: 'no', label: 'Not known', note: 'then it is unproven' },
  ]
  const title = 'Are the layers of the coat, and those of the trousers, one assembly each?'
  return { ask: 'choose', name: 'assembly', title, options }
}
