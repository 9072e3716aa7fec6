// A working fire and what a house does about its gear; whatever is not said to be cleaned stays uncleaned.
import { ago, clock } from './ledger.mjs'
import { WORN } from './gear.mjs'

const BENCH = 'Cleaning bench (invented)'

/** A working fire, the night's work on the breathing apparatus, and the gear away to be cleaned and back two days later. `stays` is not back yet, `unlisted` is back with no word of a cleaning. */
export function fire(
  book,
  people,
  gear,
  { days, time, seats, incident, stays = [], unlisted = [], held = [] },
) {
  const platoon = people.platoonOf(days)
  const [officer] = platoon
  book.on(days, time, officer.id, {
    do: 'record-exposure',
    exposure: 'products-of-combustion',
    seats,
    incident,
  })
  const crew = seats.map((seat) => platoon.find((person) => person.seat === seat))
  for (const person of crew) {
    const { seat } = person
    const cylinder = gear.cylinders[seat]
    const left = 900 + book.between(0, 40) * 25
    book.on(days, clock(time, 40), officer.id, { do: 'read-pressure', element: cylinder, psi: left })
    for (const element of [gear.own(person, 'facepiece'), gear.packs[seat], cylinder]) {
      book.on(days, clock(time, 90), officer.id, {
        do: 'record-care',
        element,
        care: 'routine-cleaning',
        on: ago(days),
        result: 'serviceable',
      })
    }
    // The apparatus is checked for proper function after each use.
    book.on(days, clock(time, 100), officer.id, {
      do: 'record-care',
      element: gear.packs[seat],
      care: 'function-check',
      on: ago(days),
      result: 'serviceable',
    })
    book.on(days, clock(time, 110), officer.id, { do: 'read-pressure', element: cylinder, psi: 4480 })
  }
  const worn = crew.flatMap((person) => WORN.map((kind) => gear.own(person, kind)))
  const sent = worn.filter((id) => !held.includes(id))
  const back = sent.filter((id) => !stays.includes(id))
  const [sender] = people.platoonOf(days - 1)
  const [receiver] = people.platoonOf(days - 2)
  book.on(days - 1, '08:40', sender.id, {
    do: 'send-away',
    elements: sent,
    to: BENCH,
    for: 'advanced-cleaning',
  })
  book.on(days - 2, '15:30', receiver.id, { do: 'receive-back', elements: back })
  for (const element of back.filter((id) => !unlisted.includes(id))) {
    book.on(days - 2, '15:40', receiver.id, {
      do: 'record-care',
      element,
      care: 'advanced-cleaning',
      on: ago(days - 2),
      result: 'serviceable',
      who: BENCH,
    })
  }
}
