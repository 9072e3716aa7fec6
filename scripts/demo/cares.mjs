// What was done to the gear over fifteen months: cleanings, inspections, tests, deliveries, retirements; the dates keep the usual gear in order.
import { ago, clock } from './ledger.mjs'
import { assemblyFor, FACEPIECE, label, TROUSERS, WORN } from './gear.mjs'

const LINERS = ['coat-liner', 'trouser-liner']
/** From here on a liner has to have been opened once: three years less the warning. */
const OLD_LINER_DAYS = 1000

export function writeCares(book, { platoons, all }, gear) {
  const keeper = platoons[1][1].id
  const care = (days, time, element, name, more = {}) =>
    book.on(days, time, keeper, {
      do: 'record-care',
      element,
      care: name,
      on: ago(more.on ?? days),
      result: 'serviceable',
      ...(more.who && { who: more.who }),
    })

  for (const person of all) writeVisits(book, person, gear, care)
  for (const [index, { id }] of gear.rack.used.entries()) {
    const days = 45 + (index % 12) * 6
    care(days, '15:10', id, 'advanced-cleaning')
    care(days, '16:00', id, 'advanced-inspection', { who: 'Verified bench (invented)' })
  }

  const yearBefore = []
  for (const [index, person] of all.entries()) {
    // One member of another platoon has let the year lapse.
    const days = person.platoon === 2 && person.index === 6 ? 380 : 25 + ((index * 37) % 290)
    const test = (on) => ({
      member: person.id,
      facepiece: { model: FACEPIECE, size: person.sizes.facepiece },
      on: ago(on),
      result: 'pass',
    })
    if (days < 100) yearBefore.push(test(days + 350))
    book.on(days, '13:30', keeper, { do: 'record-fit-test', ...test(days) })
  }
  // The tester's list of the year before came as a file, after the last of its tests.
  book.on(370, '10:30', keeper, {
    do: 'import-records',
    file: 'fit-tests.csv (invented)',
    members: [],
    elements: [],
    cares: [],
    fitTests: yearBefore,
    changes: [],
  })

  writeTests(gear, care)
  writeDelivery(book, keeper)
  writeRetirements(book, keeper, gear)

  book.on(459, '09:00', platoons[0][0].id, {
    do: 'adopt-policy',
    overlay: {
      name: 'Station 9 overlay (demonstration)',
      adoptedBy: 'the invented department',
      changes: [
        {
          id: 'flow-test-interval',
          warn: 'P14D',
          reason: 'The test bench is in our own house, so two weeks are enough to book it.',
        },
      ],
    },
  })
}

/** Each member's gear is seen to three times; the middle time it is also inspected, and older liners are opened. */
function writeVisits(book, person, gear, care) {
  const isDueToday = person.platoon === 0 && person.index === 4
  // Nothing is done to a helmet once it is held as evidence, and the boots that lapse need more than a year.
  const isFixed = (person.platoon === 1 && person.index === 4) || (person.platoon === 2 && person.index === 5)
  const first = isFixed ? 80 : book.between(8, 120)
  const visits = isDueToday ? [41, 170, 325] : [first, first + 165, first + 320]
  const own = gear.elements.filter((each) => each.to === person.id && WORN.includes(each.kind))
  for (const [visit, days] of visits.entries()) {
    own.forEach(({ id, kind, days: inService }, index) => {
      // Only the trousers of the one who has something due missed the last cleaning.
      if (isDueToday && visit === 0 && TROUSERS.includes(kind)) return
      const isOverdue = person.platoon === 2 && person.index === 5 && kind === 'boots'
      care(days, clock('10:00', index), id, 'advanced-cleaning')
      if (visit !== (isOverdue ? 2 : 1)) return
      care(days, clock('11:00', index), id, 'advanced-inspection', { who: 'Verified bench (invented)' })
      if (LINERS.includes(kind) && inService > OLD_LINER_DAYS) {
        care(days, clock('11:30', index), id, 'complete-liner-inspection')
      }
    })
  }
}

function writeTests({ elements, packs, cylinders }, care) {
  const seatPacks = Object.values(packs)
  for (const [index, pack] of seatPacks.entries()) {
    // The hydrant position's pack is inside the two weeks that the overlay warns ahead.
    const days = pack === packs['E9-5'] ? 355 : 95 + index * 17
    care(days, '14:10', pack, 'flow-test', { who: 'House test bench' })
    if (index < 4) care(days - 40, '14:40', pack, 'function-check')
  }
  for (const [index, id] of Object.values(cylinders).entries()) {
    const { months } = elements.find((each) => each.id === id)
    if (months <= 54) continue
    const days = 210 + index * 90
    // What was tested before the books began was entered when they did.
    care(Math.min(days, 460), '14:20', id, 'hydrostatic-test', { on: days, who: 'Test shop (invented)' })
  }
}

const fresh = (kind, number, size) =>
  label(kind, number, { months: 5, size, assembly: assemblyFor(kind, number) })

function writeDelivery(book, keeper) {
  const elements = [
    fresh('hood', 971),
    fresh('hood', 972),
    fresh('hood', 973),
    fresh('helmet', 971),
    fresh('gloves', 971, '76W'),
    fresh('boots', 971, '10D'),
  ]
  book.on(75, '11:20', keeper, { do: 'import-gear', file: 'spares-delivery.csv', members: [], elements })
}

function writeRetirements(book, keeper, { old }) {
  const reasons = ['past ten years', 'sole worn through', 'burned through at the palm', 'past ten years']
  for (const [index, element] of old.entries()) {
    const days = 410 - index * 95
    book.on(days, '16:30', keeper, {
      do: 'retire',
      element,
      reason: reasons[index],
      disposal: 'cut up and discarded',
    })
  }
}
