// Folds a correction into the records it names, as if they had said so from the start; the journal keeps both.
import type { EventOf } from '../events.ts'
import type { CareRecord, ExposureRecord, FitTest, Member, State, Tag } from '../state.ts'
import { changeMember, inOrder, said } from './crew.ts'
import { changeElement, exposeOne, failed } from './gear.ts'
import { keepCares } from './kept.ts'
import { withdrawLook } from './inspection.ts'

export function applyAmendment(draft: State, event: EventOf<'event-amended'>): void {
  const { seq, type, subject, on, with: changes } = event.data
  const { withdrawn = false, ...fields } = changes
  /** The records with the one of this event changed, or without it. */
  const mend = <T extends { seq: number; on?: string }>(records: T[]): T[] =>
    records.flatMap((record) => {
      if (record.seq !== seq || (on !== undefined && record.on !== on)) return [record]
      return withdrawn ? [] : [{ ...record, ...fields }]
    })

  switch (type) {
    case 'element-added':
      return changeElement(draft, subject, () => fields)
    case 'member-added':
    case 'gear-imported':
    case 'records-imported':
      return changeMember(draft, subject, () => fields as Partial<Member>)
    case 'element-tagged':
      return changeElement(draft, subject, ({ tags }) => ({ tags: mend<Tag>(tags) }))
    case 'pressure-read':
      changeElement(draft, subject, ({ readings }) => ({ readings: mend(readings) }))
      if (withdrawn) withdrawLook(draft, seq)
      return
    case 'care-recorded':
    case 'batch-received':
      return amendCare(draft, event)
    case 'exposure-recorded':
      return amendExposure(draft, event, mend)
    case 'fit-test-recorded':
      return changeMember(draft, subject, ({ fitTests }) => ({
        fitTests: inOrder(mend<FitTest>(fitTests), Infinity),
      }))
    case 'seat-answered':
      return withdrawAnswer(draft, subject, seq)
    case 'note-made':
      draft.notes = mend(draft.notes)
      return
  }
}

/** A result corrected to unserviceable tags the element, and the tag goes if it is corrected back. */
function amendCare(draft: State, { data }: EventOf<'event-amended'>): void {
  const { seq, subject, care, on, with: changes } = data
  const { withdrawn = false, ...fields } = changes
  const isMeant = (record: CareRecord): boolean =>
    record.seq === seq &&
    (care === undefined || record.care === care) &&
    (on === undefined || record.on === on)
  const elements = subject ? [draft.elements.get(subject)] : [...draft.elements.values()]
  for (const element of elements) {
    const meant = element?.cares.filter(isMeant) ?? []
    if (!element || !meant.length) continue
    const mended = withdrawn ? [] : meant.map((record): CareRecord => ({ ...record, ...fields }))
    const rest = element.cares.filter((record) => !isMeant(record))
    const cares = keepCares([...rest, ...mended])
    const others = element.tags.filter((tag) => tag.seq !== seq || !isTagOf(meant, rest, tag))
    // A tag already lifted comes back only when the result itself is amended.
    const isTagged = others.length < element.tags.length || 'result' in changes
    const failures = isTagged ? mended.filter((record) => record.result === 'unserviceable') : []
    const tags = [...failures, ...uncovered(meant, rest, cares, others)]
    changeElement(draft, element.id, () => ({ cares, tags: [...others, ...tags.map(tagFor)] }))
  }
}

const tagFor = (record: CareRecord): Tag => ({
  ...said(record),
  reason: failed(record.care),
  matter: 'safety',
})

/** Does the tag stand for these records alone? Another of the same event that failed the same care keeps it. */
const isTagOf = (meant: readonly CareRecord[], rest: readonly CareRecord[], tag: Tag): boolean =>
  meant.some(
    ({ seq, care }) =>
      failed(care) === tag.reason &&
      !rest.some((each) => each.seq === seq && each.care === care && each.result === 'unserviceable'),
  )

/** A failure that only a record now gone had passed: it tags after all. */
function uncovered(
  meant: readonly CareRecord[],
  rest: readonly CareRecord[],
  now: readonly CareRecord[],
  tags: readonly Tag[],
): CareRecord[] {
  const passed = meant.filter((each) => each.result === 'serviceable').map((each) => each.care)
  return [...new Set(passed)].flatMap((care) => {
    const newest = now.findLast((each) => each.care === care)
    const isOpen = newest?.result === 'unserviceable' && newest.seq === meant[0]!.seq && rest.includes(newest)
    return isOpen && !tags.some((tag) => tag.reason === failed(care)) ? [newest] : []
  })
}

function amendExposure(
  draft: State,
  event: EventOf<'event-amended'>,
  mend: (exposures: ExposureRecord[]) => ExposureRecord[],
): void {
  const { seq, subject, with: changes } = event.data
  const { elements, withdrawn, ...fields } = changes as { elements?: string[]; withdrawn?: true }
  const before = [...draft.elements.values()].filter((each) => each.exposures.some((one) => one.seq === seq))
  const record = before[0]?.exposures.find((each) => each.seq === seq)
  for (const element of before) {
    if (subject && element.id !== subject) continue
    const stays = !elements || elements.includes(element.id)
    changeElement(draft, element.id, ({ exposures }) => ({
      exposures: stays ? mend(exposures) : exposures.filter((each) => each.seq !== seq),
    }))
  }
  if (withdrawn) return
  for (const id of new Set(elements)) {
    if (record && !before.some((each) => each.id === id)) exposeOne(draft, id, { ...record, ...fields })
  }
}

/** An answer that was never given: the riding position is to be called again, and nothing was looked at. */
function withdrawAnswer(draft: State, seat: string, seq: number): void {
  withdrawLook(draft, seq)
  if (draft.tour?.answers.get(seat)?.seq === seq) draft.tour.answers.delete(seat)
}
