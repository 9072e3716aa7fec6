// What is started from the log: correcting or withdrawing the record in hand, and choosing which records are shown.
import { changeOf, fieldsOf, sayValue, valueIn, type Field } from '../../domain/corrections.ts'
import type { Command } from '../../domain/commands.ts'
import { recordsOf } from '../../domain/decide/amend.ts'
import { nameAmong, type StandingRecord } from '../../domain/decide/amend-meant.ts'
import { capital, nameOf, sayMember } from '../../domain/decide/decision.ts'
import type { State } from '../../domain/state.ts'
import type { View } from '../view.ts'
import { confirm, refusalOf, type Action, type Answers, type Step } from './action.ts'
import { askWords } from './ask.ts'
import { NOTHING_LEFT } from './many.ts'

const ALL = 'all of it'
const NOT_AT_ALL = 'withdrawn'

/** Which of the records of one event is meant: an import holds many, a crew's exposure one for each element. */
function askSubject({ state }: View, answers: Answers, records: readonly StandingRecord[]): Step | undefined {
  if (records.length === 1 || answers['subject'] !== undefined) return undefined
  const options = records.map((each) => ({
    value: keyOf(each, records),
    label: sayThing(state, each.subject),
    note: nameAmong(each, records)?.replaceAll(/-(?=[a-z])/g, ' ') ?? '',
  }))
  const isExposure = records[0]!.type === 'exposure-recorded'
  const whole = { value: ALL, label: 'The exposure of all of them' }
  return {
    ask: 'choose',
    name: 'subject',
    title: `Event ${answers['seq']} is about several things. Which one is wrong?`,
    options: isExposure ? [whole, ...options] : options,
  }
}

/** One event can record several things of one element: then its name, after a space, is part of what is meant. */
function keyOf(record: StandingRecord, records: readonly StandingRecord[]): string {
  const name = nameAmong(record, records)
  return name === undefined ? record.subject : `${record.subject} ${name}`
}

const sayThing = (state: State, id: string): string => {
  const element = state.elements.get(id)
  return element ? capital(nameOf(element)) : sayMember(state, id)
}

function askField({ state }: View, answers: Answers, record: StandingRecord): Step | undefined {
  if (answers['field'] !== undefined) return undefined
  const fields = fieldsOf(record, state).map((field) => ({
    value: field.path,
    label: capital(field.label.split(',')[0]!),
    note: sayValue(field, valueIn(record, field)) || 'nothing yet',
  }))
  const isOneOfMany = answers['subject'] !== undefined && answers['subject'] !== ALL
  const isLabel = record.type === 'element-added' || record.type === 'member-added'
  const out = {
    value: NOT_AT_ALL,
    label: `Withdraw it for ${record.subject} alone`,
    note: 'it should not have been recorded',
  }
  return {
    ask: 'choose',
    name: 'field',
    title: `What is wrong in event ${answers['seq']}?`,
    options: isOneOfMany && !isLabel ? [out, ...fields] : fields,
  }
}

function askValue(view: View, answers: Answers, record: StandingRecord, field: Field): Step | undefined {
  if (answers['value'] !== undefined) return undefined
  const title = `What should it say? ${capital(field.label)}`
  const before = valueIn(record, field)
  if (field.options) {
    const options = field.options.map((value) => ({
      value,
      label: capital(sayValue(field, value)),
      blocked: value === before ? 'that is what it says now' : undefined,
    }))
    return { ask: 'choose', name: 'value', title, options }
  }
  const fault = (text: string): string | undefined => {
    if (text === before) return 'That is what it says now.'
    if (field.isNumber && !/^-?\d+$/.test(text)) return `"${text}" is not a whole number.`
    return refusalOf(view, amendOf(answers, changeOf(record, field, text)))
  }
  return { ask: 'write', name: 'value', title, hint: `it says: ${before || 'nothing yet'}`, fault }
}

function amendOf(answers: Answers, change: object, why = '-') {
  const { subject: meant = ALL, seq } = answers
  const [subject, ...name] = meant.split(' ')
  const which = meant === ALL ? {} : { subject, ...(name.length && { of: name.join(' ') }) }
  return { do: 'amend' as const, seq: Number(seq), why, with: { ...which, ...change } }
}

/** Started on the record in hand: its number and what it says are the first answers. */
export const correct: Action = {
  id: 'correct',
  isOfStation: true,
  key: 'c',
  label: 'correct',
  help: 'Correct a value of the record in hand. As first recorded and as amended both stay visible.',
  next(view, answers) {
    const records = recordsOf(view.state, Number(answers['seq']))
    const asked = askSubject(view, answers, records)
    if (asked) return asked
    const record = records.find((each) => keyOf(each, records) === answers['subject']) ?? records[0]
    // Another terminal may have withdrawn it meanwhile.
    if (!record) return NOTHING_LEFT
    const whatAsked = askField(view, answers, record)
    if (whatAsked) return whatAsked
    const field = fieldsOf(record, view.state).find((each) => each.path === answers['field'])
    const more =
      (field && askValue(view, answers, record, field)) ?? askWords(answers, 'why', 'Why is it corrected?')
    if (more) return more
    const change = field ? changeOf(record, field, answers['value']!) : { withdrawn: true }
    const command = { ...amendOf(answers, change, answers['why']), by: view.speaker! } as Command
    const now = field
      ? `${capital(field.label.split(',')[0]!)}: ${sayValue(field, answers['value']!)}, was ${(sayValue(field, valueIn(record, field)) || 'nothing').replace(/\.$/, '')}.`
      : `withdrawn for ${record.subject}.`
    return confirm(
      view,
      `Amend event ${answers['seq']}?`,
      [command],
      `Event ${answers['seq']} is amended; both versions stay in the log.`,
      [`As recorded: ${answers['said']}`, `As amended: ${now}`, `Because: ${answers['why']}`],
    )
  },
}

export const withdraw: Action = {
  id: 'withdraw',
  isOfStation: true,
  key: '-',
  label: 'withdraw',
  help: 'Withdraw the record in hand, which should not have been made. Both stay visible.',
  next(view, answers) {
    const asked = askWords(answers, 'why', `Why is event ${answers['seq']} withdrawn?`)
    if (asked) return asked
    const command: Command = {
      do: 'amend',
      by: view.speaker!,
      seq: Number(answers['seq']),
      why: answers['why']!,
      with: { withdrawn: true },
    }
    return confirm(
      view,
      `Withdraw event ${answers['seq']}?`,
      [command],
      `Event ${answers['seq']} is withdrawn; both stay in the log.`,
      [answers['said'] ?? '', `Because: ${answers['why']}.`].filter(Boolean),
    )
  },
}
