// Folds a correction into the records it names, as if they had said so from the start; the journal keeps both.
import type { EventOf } from '../events.ts'
import type { CareRecord, ExposureRecord, FitTest, Member, State, Tag } from '../state.ts'
import { changeMember, inOrder, said } from './crew.ts'
import { changeElement, exposeOne, failed, keepCares } from './gear.ts'
import { withdrawReading } from './inspection.ts'

export function applyAmendment(draft: State, event: EventOf<'event-amended'>): void {
  const { seq, type, subject, with: changes } = event.data
  const { withdrawn = false, ...fields } = changes
  /** The records with the one of this event changed, or without it. */
  const mend = <T extends { seq: number }>(records: T[]): T[] =>
    records.flatMap((record) => (record.seq !== seq ? [record] : withdrawn ? [] : [{ ...record, ...fields }]))

  switch (type) {
    case 'element-added':
      return changeElement(draft, subject, () => fields)
    case 'member-added':
    case 'gear-imported':
      return changeMember(draft, subject, (member) => ({ ...member, ...(fields as Partial<Member>) }))
    case 'element-tagged':
      return changeElement(draft, subject, ({ tags }) => ({ tags: mend<Tag>(tags) }))
    case 'pressure-read':
      changeElement(draft, subject, ({ readings }) => ({ readings: mend(readings) }))
      if (withdrawn) withdrawReading(draft, seq)
      return
    case 'care-recorded':
    case 'batch-received':
      return amendCare(draft, event)
    case 'exposure-recorded':
      return amendExposure(draft, event, mend)
    case 'fit-test-recorded':
      return changeMember(draft, subject, (member) => ({
        ...member,
        fitTests: inOrder(mend<FitTest>(member.fitTests), Infinity),
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
  const { seq, subject, care, with: changes } = data
  const { withdrawn = false, ...fields } = changes
  const isMeant = (record: CareRecord): boolean =>
    record.seq === seq && (care === undefined || record.care === care)
  const elements = subject ? [draft.elements.get(subject)] : [...draft.elements.values()]
  for (const element of elements) {
    const meant = element?.cares.filter(isMeant) ?? []
    if (!element || !meant.length) continue
    const mended = withdrawn ? [] : meant.map((record): CareRecord => ({ ...record, ...fields }))
    const reasons = meant.map((record) => failed(record.care))
    const others = element.tags.filter((tag) => tag.seq !== seq || !reasons.includes(tag.reason))
    // A tag already lifted comes back only when the result itself is amended.
    const isTagged = others.length < element.tags.length || 'result' in changes
    const tags = mended
      .filter((record) => isTagged && record.result === 'unserviceable')
      .map((record): Tag => ({ ...said(record), reason: failed(record.care), matter: 'safety' }))
    changeElement(draft, element.id, ({ cares }) => ({
      cares: keepCares([...cares.filter((record) => !isMeant(record)), ...mended]),
      tags: [...others, ...tags],
    }))
  }
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
  if (draft.tour?.answers.get(seat)?.seq !== seq) return
  const answers = new Map(draft.tour.answers)
  answers.delete(seat)
  draft.tour = { ...draft.tour, answers }
}
