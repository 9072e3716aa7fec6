// Records and tags as rows for a spreadsheet; an item with nothing on record has a row that says so.
import { csvOf } from './csv.ts'
import type { BagTags, Labels, OutOfServiceTags } from './gear-tags.ts'
import type { InspectionRecord } from './inspection-record.ts'
import { NOT_ON_RECORD, type ElementRecords, type RecordLine } from './record-shape.ts'
import { sayBy } from './said.ts'

const RECORD = [
  'element',
  'kind',
  'item',
  'title',
  'on',
  'words',
  'by',
  'at',
  'seq',
  'withdrawn',
  'amended',
] as const
const ALSO = 'All else in the journal'

export function elementRecordRows({ elements }: ElementRecords): string {
  const row = ({ on, words, at, seq, withdrawn, amended, ...said }: RecordLine) => ({
    on,
    words,
    by: sayBy(said),
    at,
    seq,
    withdrawn: withdrawn ? 'yes' : '',
    amended: amended.map((each) => each.words).join(' '),
  })
  return csvOf(
    RECORD,
    elements.flatMap(({ id, kind, items, also }) => [
      ...items.flatMap(({ item, title, lines }) =>
        lines.length
          ? lines.map((each) => ({ element: id, kind, item, title, ...row(each) }))
          : [{ element: id, kind, item, title, words: NOT_ON_RECORD }],
      ),
      ...also.map((each) => ({ element: id, kind, item: '', title: ALSO, ...row(each) })),
    ]),
  )
}

const INSPECTION = [
  'element',
  'kind',
  'serial',
  'date',
  'inspector',
  'how',
  'findings',
  'remedial-action',
  'seq',
  'withdrawn',
] as const

export const inspectionRows = ({ elements }: InspectionRecord): string =>
  csvOf(
    INSPECTION,
    elements.flatMap(({ id, kind, serial, inspections }) => {
      const element = { element: id, kind, serial: serial ?? NOT_ON_RECORD }
      const none = { date: NOT_ON_RECORD, inspector: NOT_ON_RECORD, findings: NOT_ON_RECORD }
      if (!inspections.length) return [{ ...element, ...none, 'remedial-action': NOT_ON_RECORD }]
      return inspections.map(({ remedialAction, withdrawn, ...each }) => ({
        ...element,
        ...each,
        'remedial-action': remedialAction,
        withdrawn: withdrawn ? 'yes' : '',
      }))
    }),
  )

const LABEL = ['id', 'kind', 'word', 'maker', 'model', 'serial', 'size', 'made'] as const

export const labelRows = ({ labels }: Labels): string => csvOf(LABEL, labels)

export const outOfServiceRows = ({ elements }: OutOfServiceTags): string =>
  csvOf(
    [...LABEL, 'reason', 'matter', 'at', 'by', 'seq'],
    elements.flatMap(({ reasons, ...label }) =>
      reasons.map((each) => ({ ...label, ...each, by: sayBy(each) })),
    ),
  )

export const bagRows = ({ elements }: BagTags): string =>
  csvOf(
    [...LABEL, 'held', 'exposure', 'incident', 'on', 'care-needed'],
    elements.flatMap(({ exposures, held, ...label }) => {
      const what = { ...label, held: held?.reason ?? '' }
      if (!exposures.length) return [what]
      return exposures.map(({ words, incident, on, careNeeded }) => ({
        ...what,
        exposure: words,
        incident,
        on,
        // Evidence is not cleaned.
        'care-needed': held ? '' : careNeeded.join(' or '),
      }))
    }),
  )
