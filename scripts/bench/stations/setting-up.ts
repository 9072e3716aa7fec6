// Rigs, members and gear of an invented station: who has what, of which size and age. It must never name a real person or maker.
import type { ImportedElement } from '../../../src/domain/events.ts'
import type { MemberFacts } from '../../../src/domain/gear.ts'
import { isHeldBySeat, KINDS, type Care, type Kind } from '../../../src/domain/kinds.ts'
import { addDays, type LocalDate } from '../../../src/domain/time.ts'
import type { Book } from './book.ts'
import type { Dice } from './dice.ts'

export const PLATOONS = ['A', 'B', 'C'] as const
const POSITIONS = ['Officer', 'Driver', 'Nozzle', 'Backup', 'Hydrant']
const SEATS_A_RIG = POSITIONS.length
/** Both words are made up. */
const FIRST = [
  'Oru',
  'Tamsel',
  'Ivek',
  'Brannoc',
  'Lisabet',
  'Quillan',
  'Marosh',
  'Desma',
  'Fenwil',
  'Yarrow',
]
const LAST = ['Askerdine', 'Vellmor', 'Tarnwick', 'Oskander', 'Brightlode', 'Cawsel', 'Drennick', 'Hollivane']
const COATS = ['40x32', '42x32', '44x32', '46x35', '48x35']
const TROUSERS = ['34x30', '36x30', '38x30', '40x32']
const GLOVES = ['70W', '73N', '76W', 'L', 'XL']
const BOOTS = ['9D', '10D', '11D', '11.5E', '12D']
const FACES = ['S', 'M', 'L']
export const FACEPIECE = 'Invented Clearface'

export interface Measures {
  events: number
  seats: number
  elements: number
}
export interface Crew {
  seats: string[]
  /** The members of each platoon who ride, in the order of the seats. */
  riding: Record<(typeof PLATOONS)[number], string[]>
  elements: string[]
}

/** A department has more members than ride at one house; each has a set of gear and the rest hangs on the rack. */
const membersFor = ({ seats, elements }: Measures): number =>
  Math.max(seats * PLATOONS.length, Math.floor(elements / 14))

const bySize = (kind: Kind, sizes: MemberFacts['sizes']): string | undefined => {
  if (kind.startsWith('coat') || kind === 'drag-rescue-device') return sizes?.coat
  if (kind.startsWith('trouser')) return sizes?.trousers
  return kind === 'gloves' || kind === 'boots' || kind === 'facepiece' ? sizes?.[kind] : undefined
}

function elementFor(
  number: number,
  kind: Kind,
  sizes: MemberFacts['sizes'],
  set: string,
  day: LocalDate,
  dice: Dice,
) {
  const element: ImportedElement = {
    id: `G-${number}`,
    kind,
    maker: 'Invented Outfitters',
    serial: `S${number}`,
  }
  // One in four hundred has lost its label's date, as gear does.
  if (!dice.once(400)) element.made = addDays(day, -dice.between(30, 9 * 365)).slice(0, 7)
  const size = bySize(kind, sizes)
  if (size) element.size = size
  if (kind === 'coat-shell') element.edition = '1971-2018'
  if (kind.startsWith('coat') || kind.startsWith('trouser') || kind === 'drag-rescue-device')
    element.assembly = set
  if (kind === 'facepiece') element.model = FACEPIECE
  if (kind === 'cylinder') Object.assign(element, { ratedPsi: 4500, construction: 'carbon' })
  return element
}

/** Adds rigs, members and gear; the gear comes in files of a few thousand rows, as imports do. */
export function setUp(book: Book, dice: Dice, measures: Measures, day: LocalDate): Crew {
  const seats = addRigs(book, measures.seats)
  const members = Array.from({ length: membersFor(measures) }, (_, at): MemberFacts => ({
    id: `M-${at + 1}`,
    name: `${FIRST[at % FIRST.length]} ${LAST[Math.floor(at / FIRST.length) % LAST.length]}`,
    platoon: PLATOONS[at % PLATOONS.length]!,
    sizes: {
      coat: dice.pick(COATS),
      trousers: dice.pick(TROUSERS),
      gloves: dice.pick(GLOVES),
      boots: dice.pick(BOOTS),
      facepiece: dice.pick(FACES),
    },
  }))
  book.give('setup', { do: 'import-gear', file: 'members.csv', members, elements: [] })
  const elements = gearFor(members, seats, measures.elements, day, dice)
  for (let from = 0; from < elements.length; from += 5000) {
    const rows = elements.slice(from, from + 5000)
    book.give('setup', {
      do: 'import-gear',
      file: `gear-${from / 5000 + 1}.csv`,
      members: [],
      elements: rows,
    })
  }
  const riding = { A: [] as string[], B: [] as string[], C: [] as string[] }
  for (const { id, platoon } of members) {
    const list = riding[platoon as keyof typeof riding]
    if (list.length < seats.length) list.push(id)
  }
  return { seats, riding, elements: elements.map((each) => each.id) }
}

function addRigs(book: Book, count: number): string[] {
  const seats: string[] = []
  for (let rig = 1; seats.length < count; rig++) {
    const size = Math.min(SEATS_A_RIG, count - seats.length)
    const places = POSITIONS.slice(0, size).map((position, at) => ({
      id: `E${rig}-${at + 1}`,
      position,
      ...(at < 2 && { critical: true }),
    }))
    book.give('setup', {
      do: 'add-rig',
      rig: { id: `E${rig}`, name: `Engine ${rig}`, minimum: Math.min(3, size), seats: places },
    })
    seats.push(...places.map((each) => each.id))
  }
  return seats
}

function gearFor(
  members: readonly MemberFacts[],
  seats: readonly string[],
  count: number,
  day: LocalDate,
  dice: Dice,
): ImportedElement[] {
  const worn = KINDS.filter((kind) => !isHeldBySeat(kind))
  const mounted = KINDS.filter(isHeldBySeat)
  const elements: ImportedElement[] = []
  const add = (kind: Kind, sizes: MemberFacts['sizes'], set: string, to?: string): void => {
    const element = elementFor(elements.length + 1, kind, sizes, set, day, dice)
    elements.push(to === undefined ? element : { ...element, issuedTo: to, issuedOn: day })
  }
  for (const seat of seats) for (const kind of mounted) add(kind, undefined, seat, seat)
  for (const { id, sizes } of members) for (const kind of worn) add(kind, sizes, `A-${id}`, id)
  for (let set = 1; elements.length < count; set++) {
    const { sizes } = dice.pick(members)
    for (const kind of KINDS) if (elements.length < count) add(kind, sizes, `A-rack-${set}`)
  }
  return elements
}

/** The cares that a kind must have had to be in date. */
export const caresFor = (kind: Kind): Care[] => {
  if (kind === 'air-pack') return ['flow-test']
  if (kind === 'cylinder') return ['hydrostatic-test']
  const liner: Care[] = kind === 'coat-liner' || kind === 'trouser-liner' ? ['complete-liner-inspection'] : []
  return ['advanced-inspection', 'advanced-cleaning', ...liner]
}
