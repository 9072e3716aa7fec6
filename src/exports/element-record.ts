// The record of one element from the whole journal, item by item; it must never skip an event, nor leave an item blank.
import { sayMember } from '../domain/decide/decision.ts'
import type { Event, ImportedChange } from '../domain/events.ts'
import type { Id } from '../domain/gear.ts'
import { plain, wordOf, type Care } from '../domain/kinds.ts'
import type { Element, State } from '../domain/state.ts'
import { aboutOf } from '../domain/about.ts'
import { sayChange } from '../domain/tell-import.ts'
import { tell } from '../domain/tell.ts'
import { dateOf, sayDate, type LocalDate } from '../domain/time.ts'
import { sayCustody } from './card.ts'
import { cleanAll } from './clean-out.ts'
import { sayingOf } from './gear-tags.ts'
import { wordsAbout } from './history.ts'
import { amendmentsOf, caresOf, exposuresOf, type StandingCare } from './record-cares.ts'
import {
  ITEMS,
  NOT_ON_RECORD,
  type ElementRecord,
  type ElementRecords,
  type RecordLine,
} from './record-shape.ts'
import { frameOf, type Made } from './slip-frame.ts'

/** Give it every event of the journal in order, then ask for the records; it keeps only what is about these elements. */
export function followElements(ids: readonly Id[]): {
  see(event: Event): void
  end(state: State, made: Made): ElementRecords
} {
  const events = new Map<Id, Event[]>(ids.map((id) => [id, []]))
  return {
    see(event) {
      for (const id of new Set(aboutOf(event))) events.get(id)?.push(event)
    },
    end: (state, made) =>
      cleanAll({
        record: 'element',
        format: 1,
        ...frameOf(state, made),
        elements: [...events].flatMap(([id, about]) => {
          const element = state.elements.get(id)
          return element ? [recordOf(element, about, state)] : []
        }),
      }),
  }
}

const INSPECTIONS: readonly Care[] = ['advanced-inspection', 'complete-liner-inspection']
const LOOKED_AT: readonly Care[] = ['routine-inspection', ...INSPECTIONS]
const ADVANCED_CLEANINGS: readonly Care[] = ['advanced-cleaning', 'specialised-cleaning']
const CLEANINGS: readonly Care[] = ['routine-cleaning', ...ADVANCED_CLEANINGS]

function recordOf(element: Element, events: readonly Event[], state: State): ElementRecord {
  const { id, kind } = element
  const cares = caresOf(events, id)
  const exposures = exposuresOf(events, id)
  const line = (event: Event, on: LocalDate, words: string, more: Partial<RecordLine> = {}): RecordLine => {
    const amendments = amendmentsOf(events, event.seq, id)
    const withdrawn = amendments.some(({ data }) => data.with['withdrawn'] === true)
    const amended = amendments.map((each) => ({ ...sayingOf(state, each), words: tell(each, state) }))
    return { ...sayingOf(state, event), on, words, withdrawn, amended, ...more }
  }
  const careLine = (each: StandingCare, words: string): RecordLine =>
    line(each.event, each.care.on, words, {
      withdrawn: each.withdrawn,
      amended: each.amendments.map((one) => ({ ...sayingOf(state, one), words: tell(one, state) })),
    })
  const caresOfSort = (sort: readonly Care[], say: (care: StandingCare) => string): RecordLine[] =>
    cares.filter((each) => sort.includes(each.care.care)).map((each) => careLine(each, say(each)))

  /** The event that put it in the books, for what its label says. */
  const added = events.find((each) => isAdding(each, id))
  function labelled(fields: readonly (keyof Element)[]): RecordLine[] {
    const words = fields.flatMap((field) => element[field] ?? []).join(', ')
    if (!words || !added) return []
    const { amended, ...rest } = line(added, dateOf(added.at), words)
    const touching = amendmentsOf(events, added.seq, id).filter(({ data }) =>
      fields.some((field) => field in data.with),
    )
    const corrections = amended.filter((each) => touching.some((one) => one.seq === each.seq))
    const imported = events.flatMap((event) =>
      importedChanges(event, id)
        .filter((each) => fields.some((field) => field in each.with))
        .map((each) => ({ ...sayingOf(state, event), words: `By an import: ${sayChange(each)}.` })),
    )
    return [{ ...rest, amended: [...corrections, ...imported].toSorted((one, other) => one.seq - other.seq) }]
  }

  function issues(): RecordLine[][] {
    return events.flatMap((event) => {
      const on = issueOf(event, id)
      if (on === undefined) return []
      const says = on === null ? `Issued; since when is ${NOT_ON_RECORD}.` : conditionAt(on)
      return [[line(event, on ?? dateOf(event.at), says)]]
    })
  }
  function conditionAt(on: LocalDate): string {
    const last = cares.findLast(
      (each) => LOOKED_AT.includes(each.care.care) && !each.withdrawn && each.care.on <= on,
    )
    const condition = last
      ? `${plain(last.care.care)} of ${sayDate(last.care.on)}: ${last.care.result}${last.care.note ? ` (${last.care.note})` : ''}`
      : NOT_ON_RECORD
    return `Issued ${sayDate(on)}. Condition: ${condition}.`
  }
  function whyCleaned({ care, event }: StandingCare): string {
    const before = cares.findLast(
      (each) =>
        CLEANINGS.includes(each.care.care) &&
        !each.withdrawn &&
        each.event.seq !== event.seq &&
        each.care.on < care.on,
    )
    const since = before?.care.on ?? ''
    const why = exposures.filter((each) => !each.withdrawn && each.on >= since && each.on <= care.on)
    const says = why.map(
      (each) =>
        `${plain(each.exposure)}${each.incident ? ` at ${each.incident}` : ''} on ${sayDate(each.on)}`,
    )
    const reason = says.length ? `after ${says.join(', ')}` : `why is ${NOT_ON_RECORD}`
    return `${plain(care.care)}: ${reason}; by ${care.who ?? `whom is ${NOT_ON_RECORD}`}.`
  }

  const retired = events.filter((each) => each.type === 'element-retired')
  const lines: RecordLine[][] = [
    events
      .filter((each) => isOfHolder(each, id))
      .map((each) => line(each, dayOf(each, id), wordsAbout(each, state, id))),
    issues().flat(),
    labelled(['maker', 'model']),
    labelled(['serial']),
    labelled(['made']),
    caresOfSort(INSPECTIONS, sayFindings),
    caresOfSort(ADVANCED_CLEANINGS, sayFindings),
    caresOfSort(CLEANINGS, whyCleaned),
    caresOfSort(['repair'], ({ care }) => {
      const what = care.note ?? `what was done is ${NOT_ON_RECORD}`
      return `${what}; by ${care.who ?? `whom is ${NOT_ON_RECORD}`}; ${care.result}.`
    }),
    retired.map((each) => line(each, dateOf(each.at), `Retired: ${each.data.reason}.`)),
    retired.map((each) => line(each, dateOf(each.at), each.data.disposal)),
  ]
  const shown = new Set([...lines.slice(0, 2), ...lines.slice(5)].flat().map((each) => each.seq))
  const also = events
    .filter(({ seq, type, ...event }) => {
      // An amendment stands with what it amends, unless that is not about this element itself.
      if (type === 'event-amended') return !events.some((each) => each.seq === (event as Amendment).data.seq)
      // A batch or an import may hold more than the items ask for.
      return type === 'batch-received' || type === 'records-imported' || !shown.has(seq)
    })
    .map((each) => line(each, dayOf(each, id), wordsAbout(each, state, id)))
  return {
    id,
    kind,
    word: wordOf(kind),
    now: sayNow(element, state),
    items: ITEMS.map((title, at) => ({
      item: at + 1,
      title,
      onRecord: lines[at]!.length > 0,
      lines: lines[at]!,
    })),
    also,
  }
}

type Amendment = { data: { seq: number } }

const sayFindings = ({ care }: StandingCare): string =>
  `${plain(care.care)}: ${care.result}${care.note ? `, ${care.note}` : ''}${care.who ? `; by ${care.who}` : ''}.`

const isAdding = ({ type, data }: Event, id: Id): boolean =>
  type === 'element-added' ||
  ((type === 'gear-imported' || type === 'records-imported') && data.elements.some((each) => each.id === id))

const importedChanges = ({ type, data }: Event, id: Id): ImportedChange[] =>
  type === 'records-imported' ? data.changes.filter((each) => each.id === id) : []

/** The day on which an event issued it, null where it does not say; undefined where it did not. */
function issueOf(event: Event, id: Id): LocalDate | null | undefined {
  const { type, data } = event
  if (type === 'element-issued') return data.on
  const change = importedChanges(event, id).find((each) => each.with['issuedTo'])
  if (change) return (change.with['issuedOn'] ?? change.with['inService'] ?? null) as LocalDate | null
  if (type !== 'gear-imported' && type !== 'records-imported') return undefined
  const row = data.elements.find((each) => each.id === id)
  return row?.issuedTo === undefined ? undefined : (row.issuedOn ?? row.inService ?? null)
}

const isOfHolder = (event: Event, id: Id): boolean =>
  issueOf(event, id) !== undefined ||
  event.type === 'element-returned' ||
  event.type === 'element-swapped' ||
  event.type === 'swap-reversed'

const dayOf = (event: Event, id: Id): LocalDate =>
  issueOf(event, id) ?? (event.type === 'care-recorded' ? event.data.on : dateOf(event.at))

const sayNow = (element: Element, state: State): string => {
  const holder = element.issuedTo === null ? 'nobody' : sayMember(state, element.issuedTo)
  return `Issued to ${holder}; custody: ${sayCustody(element)}.`
}
