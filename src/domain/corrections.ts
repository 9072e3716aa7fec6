// What can be corrected of a record, field by field, as it is asked for at the keyboard; whether a value is sound is for `decide`.
import type { StandingRecord } from './decide/amend-meant.ts'
import { CARES, CONSTRUCTIONS, EXPOSURES, factsOf, MEASURES, plain } from './kinds.ts'
import type { State } from './state.ts'

export interface Field {
  /** Its path in the record: `psi`, `sizes.coat`, `facepiece.model`. */
  path: string
  /** As it is asked for. */
  label: string
  /** The only values there are, where it is so. */
  options?: readonly string[]
  isNumber?: true
}

const words = (path: string, label = path): Field => ({ path, label })
const number = (path: string, label: string): Field => ({ path, label, isNumber: true })
const one = (path: string, label: string, options: readonly string[]): Field => ({ path, label, options })
const day = (path: string, label: string): Field => ({ path, label: `${label}, year-month-day` })

const FIELDS: Readonly<Record<StandingRecord['type'], readonly Field[]>> = {
  'member-added': [
    words('name'),
    words('rank'),
    words('platoon'),
    ...MEASURES.map((measure) => words(`sizes.${measure}`, `size of ${measure}`)),
  ],
  'element-added': [
    words('maker'),
    words('model'),
    words('serial'),
    words('size'),
    words('made', 'month of manufacture, year-month'),
    words('edition'),
    words('assembly'),
    day('inService', 'in service since'),
    number('ratedPsi', 'rated pressure in psi'),
    one('construction', 'construction', CONSTRUCTIONS),
  ],
  'element-tagged': [words('reason'), one('matter', 'matter', ['safety', 'compliance'])],
  'exposure-recorded': [one('exposure', 'exposed to', EXPOSURES), words('incident')],
  'care-recorded': [
    one('care', 'care', CARES),
    day('on', 'day it was done'),
    one('result', 'result', ['serviceable', 'unserviceable']),
    words('who', 'by whom'),
  ],
  'pressure-read': [number('psi', 'pressure in psi'), number('celsius', 'temperature in degrees C')],
  'fit-test-recorded': [
    words('facepiece.model', 'model of the facepiece'),
    words('facepiece.size', 'size of the facepiece'),
    day('on', 'day it was done'),
    one('result', 'result', ['pass', 'fail']),
  ],
  'note-made': [words('text', 'note')],
  'seat-answered': [],
}

/** The fields of a record, those of its own kind only; none of one that is called again instead. */
export function fieldsOf({ type, subject }: StandingRecord, state: State): Field[] {
  const element = state.elements.get(subject)
  const isCylinder = element?.kind === 'cylinder'
  return FIELDS[type].flatMap((field) => {
    if (!isCylinder && (field.path === 'ratedPsi' || field.path === 'construction')) return []
    return field.path === 'care' && element ? { ...field, options: factsOf(element.kind).cares } : field
  })
}

/** What the record says in a field now, as it would be typed; empty where it says nothing. */
export function valueIn({ said }: StandingRecord, { path }: Field): string {
  const [name, part] = path.split('.') as [string, string | undefined]
  const whole = said[name]
  const value = part === undefined ? whole : (whole as Record<string, unknown> | undefined)?.[part]
  return value === undefined || value === null ? '' : String(value)
}

/** The `with` of the amendment that puts a value in a field. */
export function changeOf({ said }: StandingRecord, { path, isNumber }: Field, text: string): object {
  const value = isNumber ? Number(text) : text
  const [name, part] = path.split('.') as [string, string | undefined]
  if (part === undefined) return { [name]: value }
  // One size corrected leaves the others; a facepiece is always told whole.
  return { [name]: { ...(name === 'sizes' ? {} : (said[name] as object)), [part]: value } }
}

/** `advanced-cleaning` reads `advanced cleaning`; what is typed stays as it was typed. */
export const sayValue = ({ options }: Field, value: string): string => (options ? plain(value) : value)
