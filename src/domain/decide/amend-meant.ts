// Which record an amendment is about, where one event made several; it must never choose between two.
import type { AmendableType, EventOf } from '../events.ts'
import type { Id } from '../gear.ts'
import type { Care } from '../kinds.ts'
import type { LocalDate } from '../time.ts'

/** What a record is, whatever event it came by: an import adds, a batch records cares. */
export type RecordType = Exclude<AmendableType, 'gear-imported' | 'records-imported' | 'batch-received'>

/** A record that still stands in the books: what kind it is, whose, and what it says. */
export interface StandingRecord {
  type: RecordType
  subject: Id
  said: Record<string, unknown>
}

/** What `with` says of it besides the changes. */
export interface Meant {
  subject?: unknown
  of?: unknown
  isWithdrawal: boolean
}

/** A crew's exposure is amended as one, and cares that were never done are withdrawn as one. */
export const isOfAll = ({ type }: StandingRecord, { subject, of, isWithdrawal }: Meant): boolean =>
  subject === undefined &&
  of === undefined &&
  (type === 'exposure-recorded' || (type === 'care-recorded' && isWithdrawal))

/** What one of several records is called: its care, or `label`, or `fit-test`; and its day, where there is one. */
function namesOf({ type, said }: StandingRecord): string[] {
  const what =
    type === 'care-recorded' ? String(said['care']) : type === 'fit-test-recorded' ? 'fit-test' : 'label'
  return said['on'] === undefined ? [what] : [what, `${what} ${String(said['on'])}`]
}

/** The shortest name that tells a record from the others of one subject; none where it is the only one, or like another in all. */
export function nameAmong(record: StandingRecord, records: readonly StandingRecord[]): string | undefined {
  const others = records.filter((each) => each !== record && each.subject === record.subject)
  if (!others.length) return undefined
  return namesOf(record).find((name) => !others.some((other) => namesOf(other).includes(name)))
}

/** One event can hold several records (an import, a batch, a crew's exposure): `subject` and `of` in `with` say which is meant. */
export function pick(seq: number, records: StandingRecord[], asked: Meant): StandingRecord | string {
  const { subject, of } = asked
  const meant = records.filter(
    (each) =>
      (subject === undefined || each.subject === subject) &&
      (of === undefined || namesOf(each).some((name) => name === of)),
  )
  const [one, ...others] = meant
  const subjects = [...new Set(records.map((each) => each.subject))]
  if (!one) return `Event ${seq} is not about that. It is about: ${subjects.join(', ')}.`
  if (!others.length || isOfAll(one, asked)) return one
  if (subject === undefined && subjects.length > 1) {
    return `Event ${seq} is about several things. Say which in "with": {"subject": "${one.subject}"}.`
  }
  if (meant.every((each) => each.type === 'element-tagged')) {
    return `Event ${seq} says several things of ${one.subject}: lift its tag and tag it again instead.`
  }
  const name = nameAmong(one, meant)
  const what = meant.every((each) => each.type === 'care-recorded') ? 'cares' : 'things'
  return `Event ${seq} records several ${what} of ${one.subject}. Say which in "with": {"subject": "${one.subject}", "of": "${name}"}.`
}

/** How a record is told from the others that its event made of the same subject. */
export function amongSeveral(
  { type, subject, said }: StandingRecord,
  records: readonly StandingRecord[],
): Pick<EventOf<'event-amended'>['data'], 'care' | 'on'> {
  const alike = records.filter((each) => each.subject === subject && each.type === type)
  const same = alike.filter((each) => each.said['care'] === said['care'])
  return {
    ...(type === 'care-recorded' && alike.length > 1 && { care: said['care'] as Care }),
    ...(said['on'] !== undefined && same.length > 1 && { on: said['on'] as LocalDate }),
  }
}
