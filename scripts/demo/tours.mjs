// The tours before this one: seating, roll calls, fires and what followed; the last of them stays open for the open tour to take over.
import { ago, clock } from './ledger.mjs'
import { fire } from './fire.mjs'
import { officerAt } from './people.mjs'
import { writeStories } from './stories.mjs'

const FIRES = { 313: ['E9-3', 'E9-4', 'L9-3'], 201: ['E9-3', 'E9-4', 'E9-5', 'L9-3'], 128: ['E9-3', 'E9-4'] }
const RECENT = [11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1]

export function writeTours(book, people, gear) {
  for (const days of [313, 201, 128, 61]) {
    openTour(book, people, days, '07:04')
    rollCall(book, people, gear, days)
    handOver(book, people, days)
  }
  for (const days of RECENT) {
    openTour(book, people, days, '07:04')
    rollCall(book, people, gear, days)
    // The last of them is handed over where the open tour begins.
    if (days > 1) handOver(book, people, days)
  }
  for (const [days, seats] of Object.entries(FIRES)) {
    fire(book, people, gear, {
      days: Number(days),
      time: '16:20',
      seats,
      incident: `house fire ${400 - days} (invented)`,
    })
  }
  writeStories(book, people, gear)
}

function openTour(book, { platoonOf }, days, time) {
  const platoon = platoonOf(days)
  const officer = platoon[0].id
  const tour = { tourOf: days }
  book.on(days, time, officer, {
    do: 'open-tour',
    tour,
    platoon: { platoonOf: days },
    officer,
    on: ago(days),
  })
  for (const { id, seat } of platoon) {
    book.on(days, clock(time, 2), officer, { do: 'seat-member', seat, member: id })
  }
}

const handOver = (book, { platoonOf }, days) =>
  book.on(days - 1, '07:00', platoonOf(days)[0].id, { do: 'hand-over', to: platoonOf(days - 1)[0].id })

/** What a roll call found, by the day and the riding position. */
const FOUND = { 7: { seat: 'E9-5', kind: 'boots', point: 'sole separation at the left toe' } }

function rollCall(book, { platoonOf }, gear, days) {
  const platoon = platoonOf(days)
  for (const [index, person] of platoon.entries()) {
    const { seat } = person
    const by = officerAt(platoon, seat)
    const time = clock('07:12', index * 2)
    const psi = 4300 + book.between(0, 20) * 10
    book.on(days, time, by, { do: 'read-pressure', element: gear.cylinders[seat], psi })
    const found = FOUND[days]?.seat === seat ? FOUND[days] : undefined
    const findings = found && [
      { element: gear.own(person, found.kind), point: found.point, matter: 'safety' },
    ]
    book.on(days, time, by, { do: 'answer', seat, ...(findings && { findings }) })
  }
}
