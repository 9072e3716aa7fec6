// The invented rigs and people of the demonstration station; no name here may be taken from a real person.

/** By the day their platoon last worked: today, yesterday, the day before. Captain, lieutenant, two drivers, the rest. */
const NAMES = [
  [
    'Maren Toldave',
    'Ikenna Brasdow',
    'Sunniva Pellorin',
    'Tobiah Varquist',
    'Leocadia Umberlow',
    'Jomar Castelwrit',
    'Anwen Thistlecrane',
    'Rafiq Dellamoor',
    'Priya Halvering',
    'Osric Nantambry',
    'Wilhelmina Kestrow',
  ],
  [
    'Esperanza Lindqvale',
    'Colm Adebrook',
    'Yuki Farrowmere',
    'Demetrius Pollander',
    'Saoirse Winterbo',
    'Kwabena Ostrandel',
    'Hanneke Duvraine',
    'Lucian Brightmarl',
    'Noor Tavistane',
    'Gideon Marchettle',
    'Freya Okunlow',
  ],
  [
    'Barnaby Asantreyl',
    'Zofia Merridane',
    'Callum Nwoserin',
    'Inez Harrowko',
    'Emeka Stillwarden',
    'Ludmila Penhallion',
    'Rowan Castabelle',
    'Amadou Felbrigand',
    'Thea Vandersloe',
    'Mateus Grindlemark',
  ],
]
const RANKS = ['Captain', 'Lieutenant', 'Engineer', 'Engineer']

const COATS = ['40x30', '42x32', '44x32', '46x34', '48x34', '44x32', '42x32']
const TROUSERS = ['34x30', '36x30', '36x32', '38x32', '40x32', '36x32']
const GLOVES = ['70W', '76N', '76W', '82W', '76W']
const BOOTS = ['8.5D', '9D', '10D', '10.5D', '11D', '11.5E', '10D']
const FACEPIECES = ['S', 'M', 'M', 'L', 'M']

const RIGS = [
  {
    id: 'E9',
    name: 'Engine 9',
    positions: ['Officer', 'Driver', 'Nozzle', 'Back-up', 'Hydrant', 'Control'],
  },
  { id: 'L9', name: 'Ladder 9', positions: ['Officer', 'Driver', 'Irons', 'Can', 'Outside vent', 'Roof'] },
]
export const SEATS = RIGS.flatMap((rig) => rig.positions.map((_, index) => `${rig.id}-${index + 1}`))

/** Where each of a platoon rides, by their place in the list above. The outside vent is nobody's. */
const RIDING = ['E9-1', 'L9-1', 'E9-2', 'L9-2', 'E9-3', 'E9-4', 'E9-5', 'E9-6', 'L9-3', 'L9-6', 'L9-4']

/** Who speaks for a riding position in a platoon: the officer of its rig. */
export const officerAt = (platoon, seat) => platoon[seat.startsWith('L') ? 1 : 0].id

export function addPeople(book) {
  for (const { id, name, positions } of RIGS) {
    const seats = positions.map((position, index) => ({
      id: `${id}-${index + 1}`,
      position,
      ...(index < 2 && { critical: true }),
    }))
    book.on(460, '08:01', 'setup', { do: 'add-rig', rig: { id, name, minimum: 4, seats } })
  }
  let number = 900
  const platoons = NAMES.map((names, platoon) =>
    names.map((name, index) => {
      number += 1
      const sizes = {
        coat: book.pick(COATS),
        trousers: book.pick(TROUSERS),
        gloves: book.pick(GLOVES),
        boots: book.pick(BOOTS),
        facepiece: book.pick(FACEPIECES),
      }
      const person = { id: `M-${number}`, number, index, platoon, name, sizes, seat: RIDING[index] }
      // The coat that is found torn today has to have its match on the rack; one boot size has none.
      if (platoon === 0 && index === 8) sizes.coat = '44x32'
      if (platoon === 1 && index === 7) sizes.boots = '14E'
      // One pair of boots is mended while a spare pair of the same size stands in.
      if (platoon === 1 && index === 6) sizes.boots = '10D'
      const rank = RANKS[index] ?? 'Firefighter'
      const member = { id: person.id, name, rank, platoon: { platoonOf: platoon }, sizes }
      book.on(460, '08:02', 'setup', { do: 'add-member', member })
      return person
    }),
  )
  /** The platoon that worked so many days ago; the rotation is one day in three. */
  const platoonOf = (daysAgo) => platoons[daysAgo % 3]
  return { platoons, all: platoons.flat(), platoonOf }
}
