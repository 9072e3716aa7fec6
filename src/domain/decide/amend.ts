// Decides corrections: a new event that names the one it amends. A record of fact is amended, an act is undone by its opposite.
import type * as z from 'zod'
import type { CommandOf, Dated } from '../commands.ts'
import { sayShapeError } from '../shape-error.ts'
import type { EventData } from '../events.ts'
import type { Id } from '../gear.ts'
import {
  careShape,
  celsiusShape,
  dateShape,
  exposureShape,
  facepieceShape,
  idShape,
  labelShape,
  matterShape,
  memberShape,
  psiShape,
  resultShape,
  wordsShape,
} from '../gear.ts'
import type { State } from '../state.ts'
import * as zod from 'zod'
import { plain } from '../kinds.ts'
import { dateOf } from '../time.ts'
import {
  amongSeveral,
  isOfAll,
  pick,
  type Meant,
  type RecordType,
  type StandingRecord,
} from './amend-meant.ts'
import { record, refuse, type Decision } from './decision.ts'
import { careFault, pressureFault } from './gear.ts'
import { labelFaults } from './setting-up.ts'

const withdrawn = zod.literal(true)

/** What `with` may change of each record. `withdrawn` says that it should never have been recorded. */
const CHANGES: Record<RecordType, z.ZodType<Record<string, unknown>>> = {
  'member-added': memberShape.omit({ id: true }).partial(),
  'element-added': labelShape.partial(),
  'element-tagged': zod.strictObject({ reason: wordsShape, matter: matterShape, withdrawn }).partial(),
  'exposure-recorded': zod
    .strictObject({
      exposure: exposureShape,
      incident: wordsShape,
      elements: zod.array(idShape).min(1),
      withdrawn,
    })
    .partial(),
  'care-recorded': zod
    .strictObject({ care: careShape, on: dateShape, result: resultShape, who: wordsShape, withdrawn })
    .partial(),
  'pressure-read': zod.strictObject({ psi: psiShape, celsius: celsiusShape, withdrawn }).partial(),
  'fit-test-recorded': zod
    .strictObject({ facepiece: facepieceShape, on: dateShape, result: zod.enum(['pass', 'fail']), withdrawn })
    .partial(),
  'note-made': zod.strictObject({ text: wordsShape, withdrawn }).partial(),
  /** What was answered is not rewritten: the riding position is called again. */
  'seat-answered': zod.strictObject({ withdrawn }),
}

/** Every record of fact made by one event that the books still hold, with the element or member it is about. */
export function recordsOf(state: State, seq: number): StandingRecord[] {
  const found: StandingRecord[] = []
  const add = (type: StandingRecord['type'], subject: Id, said: object) =>
    found.push({ type, subject, said: { ...said } })
  for (const element of state.elements.values()) {
    if (element.seq === seq) add('element-added', element.id, element)
    const cares = element.cares.filter((each) => each.seq === seq)
    for (const care of cares) add('care-recorded', element.id, care)
    // The tag of a failed care follows its care and is not a record of its own.
    for (const tag of element.tags)
      if (tag.seq === seq && !cares.length) add('element-tagged', element.id, tag)
    for (const exposure of element.exposures) {
      if (exposure.seq === seq) add('exposure-recorded', element.id, exposure)
    }
    for (const reading of element.readings) if (reading.seq === seq) add('pressure-read', element.id, reading)
  }
  for (const member of state.members.values()) {
    if (member.seq === seq) add('member-added', member.id, member)
    for (const test of member.fitTests) if (test.seq === seq) add('fit-test-recorded', member.id, test)
  }
  for (const note of state.notes) if (note.seq === seq) add('note-made', '', note)
  // An answer that found something is mended by its tags; one that found nothing can be withdrawn.
  for (const [seat, answer] of state.tour?.answers ?? []) {
    if (answer.seq === seq && !answer.findings.length) add('seat-answered', seat, answer)
  }
  return found
}

export function amend(command: Dated<CommandOf<'amend'>>, state: State): Decision {
  const { seq, why, at } = command
  const { subject, of, ...changes } = command.with
  if (seq > state.seq) return refuse(`There is no event ${seq}: the journal has ${state.seq}.`)
  const records = recordsOf(state, seq)
  if (!records.length) {
    return refuse(
      `Event ${seq} cannot be amended any more. If it was something done, such as a swap or a seat, do the opposite; if a newer record stands in its place, amend that one; else write a note.`,
    )
  }
  const asked: Meant = { subject, of, isWithdrawal: changes['withdrawn'] === true }
  const standing = pick(seq, records, asked)
  if (typeof standing === 'string') return refuse(standing)
  const shaped = CHANGES[standing.type].safeParse(changes)
  if (!shaped.success) return refuse(`amend: with: ${sayShapeError(shaped.error)} Nothing was recorded.`)
  if (!Object.keys(shaped.data).length) return refuse('An amendment must say in "with" what changes.')
  const isWhole = isOfAll(standing, asked) && (standing.type === 'exposure-recorded' || records.length > 1)
  if ('elements' in shaped.data && !isWhole) {
    return refuse('"elements" says all that was exposed: give it without "subject".')
  }
  const fault = faultOf(state, standing, shaped.data, dateOf(at)) ?? doubled(records, standing, shaped.data)
  if (fault) return refuse(fault)
  const was: Record<string, unknown> = Object.fromEntries(
    Object.keys(shaped.data)
      .filter((key) => key !== 'withdrawn')
      .map((key) => [key, standing.said[key] ?? null]),
  )
  // Each element that it is about finds the amendment in its own history.
  if (isWhole) was['elements'] = [...new Set(records.map((each) => each.subject))]
  const { sizes } = shaped.data
  const data: EventData['event-amended'] = {
    seq,
    type: standing.type,
    subject: isWhole ? '' : standing.subject,
    ...(!isWhole && amongSeveral(standing, records)),
    why,
    was,
    // One measure corrected leaves the others as they were.
    with: sizes ? { ...shaped.data, sizes: { ...(was['sizes'] as object), ...sizes } } : shaped.data,
  }
  return record('event-amended', data)
}

/** Two cares of one element by one event are told apart by what they are: one never becomes the other. */
function doubled(
  records: readonly StandingRecord[],
  { type, subject, said }: StandingRecord,
  { care }: Record<string, unknown>,
): string | undefined {
  if (type !== 'care-recorded' || care === undefined || care === said['care']) return undefined
  return records.some((each) => each.subject === subject && each.said['care'] === care)
    ? `That event records ${plain(String(care))} of ${subject} already. Withdraw this one instead.`
    : undefined
}

/** The amended record is held to the same sense as a new one. */
function faultOf(state: State, standing: StandingRecord, changes: Record<string, unknown>, today: string) {
  const now: Record<string, unknown> = { ...standing.said, ...changes }
  const element = state.elements.get(standing.subject)
  if (standing.type === 'element-added' && element) {
    const [fault] = labelFaults({ ...element, ...changes }, today)
    return fault && `${element.id} was not amended: ${fault.says}.`
  }
  if (standing.type === 'care-recorded' && element) {
    const { care, on } = now as unknown as EventData['care-recorded']
    return careFault(element, care, on, today)
  }
  if (standing.type === 'pressure-read' && element) return pressureFault(element, Number(now.psi))
  if (standing.type === 'fit-test-recorded' && String(now.on) > today) {
    return 'A fit test is recorded when it has been done.'
  }
  if (standing.type === 'exposure-recorded') {
    const unknown = (changes.elements as Id[] | undefined)?.find((id) => !state.elements.has(id))
    return unknown && `There is no element ${unknown} in this station.`
  }
  return undefined
}
