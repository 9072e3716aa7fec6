// The station's gear, members, cares and fit tests as CSV that `import` reads again without loss; it must never list what has left the books.
import { stringify } from 'csv-stringify/sync'
import { KINDS, MEASURES, type Measure } from '../domain/kinds.ts'
import type { Element, State } from '../domain/state.ts'
import { asText } from './csv-text.ts'

export const LISTS = ['gear', 'members', 'cares', 'fit-tests'] as const
export type List = (typeof LISTS)[number]

const SIZE_COLUMNS: Record<Measure, string> = {
  coat: 'coat-size',
  trousers: 'trouser-size',
  helmet: 'helmet-size',
  hood: 'hood-size',
  gloves: 'glove-size',
  boots: 'boot-size',
  facepiece: 'facepiece-size',
}

/** The columns of each list, called as `import` calls them. */
export const LIST_COLUMNS: Record<List, readonly string[]> = {
  gear: [
    'id',
    'kind',
    'maker',
    'model',
    'serial',
    'size',
    'made',
    'edition',
    'assembly',
    'in-service',
    'issued-to',
    'issued-on',
    'rated-psi',
    'construction',
  ],
  members: ['id', 'name', 'rank', 'platoon', ...Object.values(SIZE_COLUMNS)],
  cares: ['element', 'care', 'on', 'result', 'who'],
  'fit-tests': ['member', 'facepiece-model', 'facepiece-size', 'on', 'result'],
}

type Cells = Record<string, string | number | null | undefined>

/** By kind and id. Gear that is retired is on no list: it would come back to life with the next import. */
const listedGear = ({ elements }: State): Element[] =>
  [...elements.values()]
    .filter((each) => each.custody.where !== 'retired')
    .toSorted((a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind) || a.id.localeCompare(b.id))

const gearRows = (state: State): Cells[] =>
  listedGear(state).map(({ inService, issuedTo, issuedOn, ratedPsi, ...label }) => ({
    ...(label as unknown as Cells),
    'in-service': inService,
    'issued-to': issuedTo,
    'issued-on': issuedOn,
    'rated-psi': ratedPsi,
  }))

const memberRows = ({ members }: State): Cells[] =>
  [...members.values()].map(({ id, name, rank, platoon, sizes }) => ({
    id,
    name,
    rank,
    platoon,
    ...Object.fromEntries(MEASURES.map((measure) => [SIZE_COLUMNS[measure], sizes?.[measure]])),
  }))

const careRows = (state: State): Cells[] =>
  listedGear(state).flatMap(({ id: element, cares }) =>
    cares.map(({ care, on, result, who }) => ({ element, care, on, result, who })),
  )

const fitTestRows = ({ members }: State): Cells[] =>
  [...members.values()].flatMap(({ id: member, fitTests }) =>
    fitTests.map(({ facepiece, on, result }) => ({
      member,
      'facepiece-model': facepiece.model,
      'facepiece-size': facepiece.size,
      on,
      result,
    })),
  )

const ROWS: Record<List, (state: State) => Cells[]> = {
  gear: gearRows,
  members: memberRows,
  cares: careRows,
  'fit-tests': fitTestRows,
}

/** RFC 4180: one header row, CRLF. A cell that could be taken for something else than its letters has an apostrophe before it. */
export const listCsv = (state: State, list: List): string =>
  stringify(ROWS[list](state), {
    header: true,
    columns: [...LIST_COLUMNS[list]],
    record_delimiter: 'windows',
    cast: { string: asText },
  })
