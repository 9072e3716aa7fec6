// The tour that is open when the station is made, counted in minutes before now; its roll call is half done on purpose.
import { ago } from './ledger.mjs'
import { assemblyFor, FACEPIECE, label, WORN } from './gear.mjs'

/** Rides the can today, sent from another house with their own gear. */
const GUEST = {
  id: 'M-741',
  name: 'Teodor Maplinsay',
  rank: 'Firefighter',
  sizes: { coat: '46x34', trousers: '38x32', gloves: '82W', boots: '11D', facepiece: 'M' },
}
/** Riding positions that have answered, with what their cylinder read, in the order they were called. */
const ANSWERED = { 'E9-1': 4450, 'E9-2': 4400, 'E9-3': 4500, 'L9-1': 4420, 'L9-3': 4380, 'L9-4': 4460 }
/** Read when the rigs were looked over, but nobody has answered there yet. */
const READ_ONLY = { 'L9-2': 4430, 'E9-6': 4390 }

export function writeOpenTour(book, { platoons }, gear) {
  const [today, yesterday] = platoons
  const [captain, lieutenant] = today
  const say = (minutes, by, command) => book.minutesAgo(minutes, by.id, command)

  say(45, yesterday[0], { do: 'hand-over', to: captain.id })
  const opening = { tour: { tourOf: 0 }, platoon: { platoonOf: 0 }, officer: captain.id, on: ago(0) }
  say(41, captain, { do: 'open-tour', ...opening })
  say(40, captain, { do: 'acknowledge', item: `away-${gear.own(today[9], 'gloves')}` })
  say(40, captain, { do: 'acknowledge', item: `held-${gear.own(yesterday[4], 'helmet')}` })

  writeGuest(say, captain)
  for (const { id, seat } of today) {
    const member = seat === 'L9-4' ? GUEST.id : id
    say(35, captain, { do: 'seat-member', seat, member })
  }
  for (const [index, cylinder] of gear.rack.cylinders.slice(0, 3).entries()) {
    say(30, captain, { do: 'read-pressure', element: cylinder, psi: 4480 - index * 20 })
  }
  for (const [seat, psi] of Object.entries(READ_ONLY)) {
    say(28, captain, { do: 'read-pressure', element: gear.cylinders[seat], psi })
  }
  const liner = gear.own(today[8], 'coat-liner')
  for (const [index, [seat, psi]] of Object.entries(ANSWERED).entries()) {
    const by = seat.startsWith('L') ? lieutenant : captain
    const findings = [{ element: liner, point: 'torn seam at the left armhole', matter: 'safety' }]
    say(25 - index * 3, by, { do: 'read-pressure', element: gear.cylinders[seat], psi })
    say(24 - index * 3, by, { do: 'answer', seat, ...(seat === 'L9-3' && { findings }) })
  }
}

function writeGuest(say, captain) {
  const size = (kind) =>
    kind.startsWith('coat') || kind.startsWith('drag')
      ? GUEST.sizes.coat
      : kind.startsWith('trouser')
        ? GUEST.sizes.trousers
        : GUEST.sizes[kind]
  const elements = [...WORN, 'facepiece'].map((kind) => ({
    ...label(kind, 7411, { months: 7, days: 75, size: size(kind), assembly: assemblyFor(kind, 7411) }),
    issuedTo: GUEST.id,
    issuedOn: ago(75),
  }))
  say(38, captain, { do: 'import-gear', file: 'detailed-in.csv', members: [GUEST], elements })
  say(37, captain, {
    do: 'record-fit-test',
    member: GUEST.id,
    facepiece: { model: FACEPIECE, size: GUEST.sizes.facepiece },
    on: ago(140),
    result: 'pass',
  })
}
