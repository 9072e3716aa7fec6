// The invented gear of the demonstration station: what is issued, what is on the rigs, what is on the rack.
import { ago } from './ledger.mjs'
import { SEATS } from './people.mjs'

export const COAT = ['coat-shell', 'coat-liner', 'drag-rescue-device']
export const TROUSERS = ['trouser-shell', 'trouser-liner']
export const WORN = [...COAT, ...TROUSERS, 'helmet', 'hood', 'gloves', 'boots']
const LETTER = {
  'coat-shell': 'C',
  'coat-liner': 'L',
  'drag-rescue-device': 'D',
  'trouser-shell': 'T',
  'trouser-liner': 'U',
  helmet: 'H',
  hood: 'K',
  gloves: 'G',
  boots: 'B',
  facepiece: 'F',
  'air-pack': 'P',
  cylinder: 'Y',
}
/** No such makers exist. */
const MAKER = {
  helmet: ['Vellby Invented Helmets', 'V4'],
  hood: ['Ottermoor Invented Turnout', 'Knit 2'],
  gloves: ['Tarnwick Invented Leather', 'Grip 5'],
  boots: ['Tarnwick Invented Leather', 'Stride 8'],
  facepiece: ['Skarrow Invented Air', 'Skarrow 2'],
  'air-pack': ['Skarrow Invented Air', 'Pack 7'],
  cylinder: ['Skarrow Invented Air', 'Carbon 45'],
}
export const FACEPIECE = MAKER.facepiece[1]

const SPARE_COATS = ['40x30', '42x32', '44x32', '46x34', '48x34', '44x32', '42x32']
const SPARE_TROUSERS = ['34x30', '36x30', '36x32', '38x32', '40x32', '36x32']
const SPARE_GLOVES = ['70W', '76N', '76W', '76W', '82W', '82W']
const SPARE_BOOTS = ['8.5D', '9D', '10D', '10.5D', '11D', '11.5E', '10D']

export const idOf = (kind, number) => `${LETTER[kind]}-${number}`

/** What the label says. `months` is how long ago it was made; with `days` it came into service so many days ago. */
export function label(kind, number, { months, days, size, assembly, ...more }) {
  const [maker, model] = MAKER[kind] ?? ['Ottermoor Invented Turnout', 'T3']
  return {
    id: idOf(kind, number),
    kind,
    maker,
    model,
    ...(size && { size }),
    ...(months && { made: { monthsAgo: months } }),
    ...(WORN.includes(kind) && { edition: months > 96 ? '1971-2013' : '1971-2018' }),
    ...(assembly && { assembly }),
    ...(days && { inService: ago(days) }),
    ...more,
  }
}

const sizeFor = (kind, sizes) =>
  COAT.includes(kind) ? sizes.coat : TROUSERS.includes(kind) ? sizes.trousers : sizes[kind]
export const assemblyFor = (kind, number) =>
  COAT.includes(kind) ? `A-${number}` : TROUSERS.includes(kind) ? `R-${number}` : undefined

/** A member's own element of a kind, of the set they wear first. */
const own = (person, kind) => idOf(kind, person.number * 10 + 1)

export function equip(book, { all }) {
  /** Every element with what the cares need to know of it. */
  const elements = []
  const add = (kind, number, facts, to) => {
    const element = label(kind, number, facts)
    book.on(460, '08:10', 'setup', { do: 'add-element', element })
    if (to) book.on(460, '09:10', 'setup', { do: 'issue', element: element.id, to, on: ago(facts.days) })
    elements.push({ id: element.id, kind, to, days: facts.days, months: facts.months })
    return element.id
  }

  for (const { id, number, index, platoon, sizes } of all) {
    const hasSecond = number % 4 === 2
    for (const set of hasSecond ? [1, 2] : [1]) {
      const shared = { coat: book.between(22, 96), trousers: book.between(22, 96) }
      for (const kind of set === 1 ? [...WORN, 'facepiece'] : [...COAT, ...TROUSERS]) {
        const full = number * 10 + set
        let months = COAT.includes(kind)
          ? shared.coat
          : TROUSERS.includes(kind)
            ? shared.trousers
            : book.between(22, 96)
        if (platoon === 0 && index === 7 && kind === 'helmet') months = 124
        if (platoon === 1 && index === 9 && kind === 'helmet') months = 119
        const days = Math.max(465, months * 30 - 75)
        const size = sizeFor(kind, sizes)
        // A hood whose label has washed out: nothing shows when it was made.
        const isBlank = platoon === 0 && index === 9 && kind === 'hood'
        const facts = { months: isBlank ? undefined : months, days, size, assembly: assemblyFor(kind, full) }
        add(kind, full, facts, id)
      }
    }
  }

  const cylinders = {}
  const packs = {}
  SEATS.forEach((seat, index) => {
    const pack = book.between(40, 90)
    packs[seat] = add('air-pack', 401 + index, { months: pack, days: pack * 30 - 75 }, seat)
    const months = book.between(20, 110)
    const facts = { months, days: Math.max(465, months * 30 - 75), ratedPsi: 4500, construction: 'carbon' }
    cylinders[seat] = add('cylinder', 401 + index, facts, seat)
  })

  const rack = addRack(book, add)
  /** Old gear that leaves the books during the year. */
  const old = ['helmet', 'boots', 'gloves', 'hood'].map((kind, index) =>
    add(kind, 990 + index, { months: 128 }),
  )
  return { elements, cylinders, packs, rack, old, own }
}

/** The rack: stock never worn has no day of service; what was worn before has, and its cares with it. */
function addRack(book, add) {
  const rack = { cylinders: [], used: [] }
  const put = (kind, number, facts, isUsed) => {
    const days = isUsed ? 465 + book.between(0, 60) : undefined
    const id = add(kind, number, { ...facts, days })
    if (isUsed) rack.used.push({ id, kind })
    return id
  }
  SPARE_COATS.forEach((size, index) => {
    const number = 981 + index
    // The third is as good as new; the sixth is past its ten years and still hangs there.
    const months = index === 2 ? 20 : index === 5 ? 126 : book.between(24, 80)
    for (const kind of COAT) {
      put(kind, number, { months, size, assembly: assemblyFor(kind, number) }, index % 2 === 1)
    }
  })
  SPARE_TROUSERS.forEach((size, index) => {
    const number = 981 + index
    const months = book.between(24, 80)
    for (const kind of TROUSERS) {
      put(kind, number, { months, size, assembly: assemblyFor(kind, number) }, index % 2 === 0)
    }
  })
  SPARE_GLOVES.forEach((size, index) =>
    put('gloves', 981 + index, { months: book.between(20, 70), size }, index > 3),
  )
  SPARE_BOOTS.forEach((size, index) =>
    put('boots', 981 + index, { months: book.between(20, 70), size }, index > 4),
  )
  for (const index of [0, 1, 2]) put('helmet', 981 + index, { months: book.between(20, 70) }, index === 2)
  for (const index of [0, 1]) put('hood', 981 + index, { months: book.between(20, 50) }, index === 1)
  for (const [index, size] of ['S', 'M', 'L'].entries()) put('facepiece', 981 + index, { months: 40, size })
  put('air-pack', 981, { months: 50 })
  for (let index = 0; index < 8; index++) {
    // The last two: a test that falls due soon, and one that has lapsed.
    const months = index < 6 ? book.between(20, 50) : index === 6 ? 59 : 64
    const facts = { months, ratedPsi: 4500, construction: 'carbon' }
    rack.cylinders.push(put('cylinder', 421 + index, facts))
  }
  return rack
}
