// Tells what an imported file said: how much in one sentence, and of one element or member all of it.
import { count } from './count.ts'
import type { EventData, ImportedChange } from './events.ts'
import type { Id } from './gear.ts'
import { plain } from './kinds.ts'
import { sayDate } from './time.ts'

type Imported = EventData['records-imported']

const counted = (number: number, one: string, many = `${one}s`): string[] =>
  number ? [count(number, one, many)] : []

function said(value: unknown): string {
  if (value === null || value === undefined) return 'nothing'
  if (Array.isArray(value)) return value.join(', ')
  // A note ends in its own full stop; another follows here.
  return String(value).replace(/\.$/, '')
}

/** `'inService'` reads `in service`. */
const sayField = (field: string): string => field.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)

type Fields = Readonly<Record<string, unknown>>

const hasParts = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** The sizes of a member and the facepiece of a fit test have parts, of which only those that differ are told. */
function sayFieldChange(field: string, next: unknown, was: unknown): string[] {
  if (!hasParts(next)) return [`${sayField(field)} ${said(next)}, was ${said(was)}`]
  const before = hasParts(was) ? was : {}
  const parts = Object.keys(next)
  const other = parts.filter((part) => next[part] !== before[part])
  return (other.length ? other : parts).map((part) => {
    const name = field === 'sizes' ? `size of ${part}` : `${part} of the ${sayField(field)}`
    return `${name} ${said(next[part])}, was ${said(before[part])}`
  })
}

/** Each field from what to what: `size 44x34, was 44x32; issued to M-105, was M-104` */
export const sayFields = (next: Fields, was: Fields): string =>
  Object.keys(next)
    .flatMap((field) => sayFieldChange(field, next[field], was[field]))
    .join('; ')

/** `C-1041: size 44x34, was 44x32` */
export const sayChange = ({ id, was, with: next }: ImportedChange): string => `${id}: ${sayFields(next, was)}`

export function sayImport({ file, members, elements, cares, fitTests, changes }: Imported): string {
  const what = [
    ...counted(members.length, 'member'),
    ...counted(elements.length, 'element'),
    ...counted(cares.length, 'care'),
    ...counted(fitTests.length, 'fit test'),
    ...counted(changes.length, 'change'),
  ]
  return `Imported ${what.join(', ')} from ${file}.`
}

/** All that the file says of one id: whose it is or what is theirs, what it changed with what stood before, each care, each fit test. */
export function sayImported(
  { elements, changes = [], cares = [], fitTests = [] }: Pick<Imported, 'elements'> & Partial<Imported>,
  id: Id,
): string[] {
  const isHolders = (each: ImportedChange): boolean =>
    each.was['issuedTo'] === id || each.with['issuedTo'] === id
  const theirs = elements.filter((each) => each.issuedTo === id).map((each) => each.id)
  const own = elements.find((each) => each.id === id)
  return [
    ...(theirs.length ? [`Issued to ${id}: ${theirs.join(', ')}`] : []),
    ...(own?.issuedTo ? [`${id}: issued to ${own.issuedTo}`] : []),
    ...changes.filter((each) => each.id === id || isHolders(each)).map(sayChange),
    ...cares
      .filter((each) => each.element === id)
      .map(
        ({ care, on, result, who, note }) =>
          `${plain(care)} on ${sayDate(on)}${who ? ` by ${who}` : ''}, ${result}${note ? ` (${note})` : ''}`,
      ),
    ...fitTests
      .filter((each) => each.member === id)
      .map(
        ({ facepiece, on, result }) =>
          `fit test with ${facepiece.model} ${facepiece.size} on ${sayDate(on)}: ${result}`,
      ),
  ]
}

/** The ids that it is about, each once. */
export const importedIds = (data: Imported): Id[] => [
  ...new Set([
    ...[...data.members, ...data.elements, ...data.changes].map((each) => each.id),
    ...data.elements.flatMap((each) => each.issuedTo ?? []),
    ...data.changes.flatMap(({ was, with: next }) =>
      [was['issuedTo'], next['issuedTo']].filter((each) => typeof each === 'string'),
    ),
    ...data.cares.map((each) => each.element),
    ...data.fitTests.map((each) => each.member),
  ]),
]
