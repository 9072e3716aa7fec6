// Folds an imported file into a draft: what is new, what it changes, and the past it brings along.
import type { DoneCare, EventOf, ImportedElement } from '../events.ts'
import type { Element, Member, Said, State } from '../state.ts'
import { addMember, changeMember, recordFitTest } from './crew.ts'
import { addElement, changeElement, failed, issue, tag, unissue } from './gear.ts'
import { keepCares } from './kept.ts'
import { said } from './crew.ts'

export function importGear(draft: State, event: EventOf<'gear-imported'>): void {
  for (const member of event.data.members) addMember(draft, member, event.seq)
  for (const element of event.data.elements) addImported(draft, element, event)
}

function addImported(draft: State, { issuedTo, issuedOn, ...element }: ImportedElement, event: Said): void {
  addElement(draft, element, event.seq)
  if (issuedTo) issue(draft, element.id, issuedTo, issuedOn ?? element.inService ?? null)
  // A spare that somebody had before has intervals that run.
  else if (issuedOn) changeElement(draft, element.id, () => ({ issuedOn }))
}

export function importRecords(draft: State, event: EventOf<'records-imported'>): void {
  const { members, elements, changes, cares, fitTests } = event.data
  for (const member of members) addMember(draft, member, event.seq)
  for (const element of elements) addImported(draft, element, event)
  for (const { id, with: next } of changes) {
    const { issuedTo, ...fields } = next as Partial<Element>
    if (draft.members.has(id)) changeMember(draft, id, () => next as Partial<Member>)
    else changeElement(draft, id, () => fields)
    if (!issuedTo) continue
    unissue(draft, id)
    issue(draft, id, issuedTo, draft.elements.get(id)?.inService ?? null)
  }
  for (const test of fitTests) recordFitTest(draft, test, event)
  const byElement = new Map<string, DoneCare[]>()
  for (const care of cares) byElement.set(care.element, [...(byElement.get(care.element) ?? []), care])
  for (const [id, done] of byElement) importCares(draft, id, done, event)
}

/** What failed a care long ago and passed it since is not out of service now; what passed it never again is. */
function importCares(draft: State, id: string, done: readonly DoneCare[], event: Said): void {
  const records = done.map(({ care, on, result, who }) => ({
    ...said(event),
    // A file gives a day and no hour, so it stands at that day's first moment: it clears nothing of the same day.
    at: `${on}T00:00:00.000+14:00`,
    care,
    on,
    result,
    ...(who !== undefined && { who }),
  }))
  changeElement(draft, id, ({ cares }) => ({ cares: keepCares([...cares, ...records]) }))
  const standing = [...(draft.elements.get(id)?.cares ?? []), ...records]
  const isPassed = ({ care, on }: DoneCare): boolean =>
    standing.some((each) => each.care === care && each.result === 'serviceable' && each.on > on)
  const failures = done.filter((each) => each.result === 'unserviceable' && !isPassed(each))
  for (const care of new Set(failures.map((each) => each.care))) {
    tag(draft, id, event, failed(care), 'safety')
  }
}
