// What a house sees besides its roll calls: mended boots, a struck helmet, wet hoods, a wrong figure, a trade; each ends as the open tour expects it.
import { fire } from './fire.mjs'
import { ago } from './ledger.mjs'

export function writeStories(book, people, gear) {
  writeStruckHelmet(book, people, gear)
  writeBoots(book, people, gear)
  writeHoods(book, people, gear)
  writeSmallThings(book, people, gear)
  writeLastFire(book, people, gear)
}

const done = (element, care, days, more = {}) => ({
  do: 'record-care',
  element,
  care,
  on: ago(days),
  result: 'serviceable',
  ...more,
})

/** Two months ago: a member is hurt, the helmet is kept as evidence and another is issued. */
function writeStruckHelmet(book, people, gear) {
  const [captain, lieutenant, , , hurt] = people.platoons[1]
  const helmet = gear.own(hurt, 'helmet')
  fire(book, people, gear, {
    days: 61,
    time: '14:05',
    seats: ['E9-3', 'E9-4'],
    incident: 'warehouse fire 339 (invented)',
    held: [helmet],
  })
  const reason = 'struck by a falling beam, member injured'
  book.on(61, '16:30', captain.id, { do: 'hold', element: helmet, reason })
  book.on(61, '16:40', captain.id, {
    do: 'note',
    text: `${hurt.name} was struck on the helmet; ${helmet} is kept as it was.`,
  })
  book.on(60, '10:00', lieutenant.id, { do: 'return-to-rack', element: helmet })
  book.on(60, '10:05', lieutenant.id, { do: 'issue', element: 'H-981', to: hurt.id, on: ago(60) })
}

/** A sole that came loose at roll call: a spare pair stands in until the pair is mended. */
function writeBoots(book, { platoons, platoonOf }, gear) {
  const [captain] = platoons[1]
  const boots = gear.own(platoons[1][6], 'boots')
  book.on(7, '07:40', captain.id, {
    do: 'swap',
    seat: 'E9-5',
    out: boots,
    in: 'B-983',
    reason: 'sole separation',
  })
  book.on(7, '09:30', captain.id, {
    do: 'send-away',
    elements: [boots],
    to: 'Boot repairer (invented)',
    for: 'repair',
  })
  const [receiver] = platoonOf(5)
  book.on(5, '10:10', receiver.id, { do: 'receive-back', elements: [boots] })
  book.on(
    5,
    '10:12',
    receiver.id,
    done(boots, 'repair', 5, { who: 'Boot repairer (invented)', note: 'new left sole' }),
  )
  book.on(4, '07:02', captain.id, {
    do: 'lift-tag',
    element: boots,
    basis: 'new sole, looked over on return',
  })
  book.on(4, '07:50', captain.id, { do: 'swap-back', seat: 'E9-5', kind: 'boots' })
}

/** After a fire spare hoods stand in; one own hood comes back, the other has shrunk and its spare stays in. */
function writeHoods(book, people, gear) {
  const [officer, , , , nozzle, backUp] = people.platoons[2]
  fire(book, people, gear, {
    days: 8,
    time: '18:10',
    seats: ['E9-3', 'E9-4'],
    incident: 'kitchen fire 392 (invented)',
  })
  const [first, second] = [nozzle, backUp].map((person) => gear.own(person, 'hood'))
  const reason = 'smoke'
  book.on(8, '20:20', officer.id, { do: 'swap', seat: 'E9-3', out: first, in: 'K-971', reason })
  book.on(8, '20:22', officer.id, { do: 'swap', seat: 'E9-4', out: second, in: 'K-972', reason })
  book.on(5, '07:50', officer.id, { do: 'swap-back', seat: 'E9-3', kind: 'hood' })
  book.on(5, '07:52', officer.id, {
    do: 'tag',
    element: second,
    reason: 'shrunk, leaves the neck open',
    matter: 'safety',
  })
}

function writeSmallThings(book, { platoons, platoonOf }, gear) {
  const [today, yesterday, before] = platoons
  const hood = gear.own(today[3], 'hood')
  book.on(6, '11:20', today[1].id, { do: 'record-exposure', exposure: 'water', elements: [hood] })
  book.on(6, '18:30', today[1].id, done(hood, 'drying', 6))

  const gloves = gear.own(before[2], 'gloves')
  const medic = 'road accident 395 (invented)'
  book.on(5, '12:40', before[0].id, {
    do: 'record-exposure',
    exposure: 'body-fluids',
    elements: [gloves],
    incident: medic,
  })
  book.on(5, '13:30', before[0].id, {
    do: 'send-away',
    elements: [gloves],
    to: 'Cleaning bench (invented)',
    for: 'specialised-cleaning',
  })
  // It comes back with the slip that went along, filled in.
  const { do: _, ...cleaned } = done(gloves, 'specialised-cleaning', 4, { who: 'Cleaning bench (invented)' })
  book.on(4, '16:00', platoonOf(4)[0].id, {
    do: 'receive-batch',
    elements: [gloves],
    cares: [cleaned],
    file: 'care-slip.csv (invented)',
  })

  const cylinder = gear.cylinders['E9-3']
  const amends = book.on(4, '08:20', yesterday[0].id, { do: 'read-pressure', element: cylinder, psi: 445 })
  book.on(4, '08:22', yesterday[0].id, {
    do: 'amend',
    amends,
    why: 'a nought was left out',
    with: { psi: 4450 },
  })

  // A trade: somebody of another platoon rides the can for the day.
  book.on(4, '07:08', yesterday[1].id, { do: 'clear-seat', seat: 'L9-4' })
  book.on(4, '07:09', yesterday[1].id, { do: 'seat-member', seat: 'L9-4', member: before[8].id })

  book.on(9, '08:10', today[0].id, {
    do: 'tag',
    element: 'G-985',
    reason: 'hole at the right thumb',
    matter: 'safety',
  })
  book.on(2, '11:00', before[0].id, {
    do: 'note',
    text: 'Boots 14E: nothing on the rack would fit. A pair is asked for.',
  })
}

/** Three days ago, the crew of today: gloves are still away, and the bench's sheet does not name one hood. */
function writeLastFire(book, people, gear) {
  const [today, yesterday] = people.platoons
  const gloves = gear.own(today[9], 'gloves')
  const hood = gear.own(today[6], 'hood')
  fire(book, people, gear, {
    days: 3,
    time: '19:40',
    seats: ['E9-4', 'E9-5', 'E9-6', 'L9-3', 'L9-4', 'L9-6'],
    incident: 'garage fire 397 (invented)',
    stays: [gloves],
    unlisted: [hood],
  })
  const text = `The bench's sheet does not name hood ${hood}. Gloves ${gloves} are still with the bench.`
  book.on(1, '15:55', yesterday[0].id, { do: 'note', text })
}
