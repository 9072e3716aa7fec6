// Why a spare cannot be put in a place, each in the words the user reads.
import { test } from 'vitest'
import { crew, held, house, retired, seated, sentAway, swap, tagged } from '../alder-hollow.ts'
import { given } from '../given.ts'

const elsewhere = [seated('M-105', 'E6-2'), swap('E6-2', 'C-1900')]
test.each([
  [
    'an unknown riding position',
    crew,
    [],
    swap('E6-9', 'C-1900', 'C-1041'),
    'There is no riding position E6-9 in this station.',
  ],
  ['no tour', house, [seated()], swap('E6-1', 'C-1900', 'C-1041'), 'No tour is open. Open the tour first.'],
  ['an unknown spare', crew, [], swap('E6-1', 'C-7', 'C-1041'), 'There is no element C-7 in this station.'],
  [
    'nobody rides there',
    crew,
    [],
    swap('E6-3', 'C-1900'),
    'Nobody rides at E6-3: seat a member before swapping their gear.',
  ],
  ['an unknown one out', crew, [], swap('E6-1', 'C-1900', 'C-7'), 'There is no element C-7 in this station.'],
  [
    'the wrong kind',
    crew,
    [],
    swap('E6-1', 'H-6', 'C-1041'),
    'Hood H-6 cannot take the place of coat shell C-1041: it is another kind of element.',
  ],
  [
    'one out that is not there',
    crew,
    [],
    swap('E6-1', 'C-1900', 'C-1901'),
    'Coat shell C-1901 is not at E6-1.',
  ],
  [
    'the one out was relieved already',
    crew,
    [swap('E6-1', 'C-1900', 'C-1041')],
    swap('E6-1', 'C-1901', 'C-1041'),
    'Coat shell C-1041 is not at E6-1.',
  ],
  [
    'nothing named to go out',
    crew,
    [],
    swap('E6-1', 'C-1900'),
    'E6-1 has coat shell C-1041. Name it as the one that goes out.',
  ],
  [
    'a spare standing in elsewhere',
    crew,
    elsewhere,
    swap('E6-1', 'C-1900', 'C-1041'),
    'Coat shell C-1900 is already in use: it stands in at E6-2.',
  ],
  [
    'somebody else’s own',
    crew,
    [seated('M-105', 'E6-2')],
    swap('E6-2', 'C-1041'),
    'Coat shell C-1041 is already in use: it is issued to A. Varga (M-104).',
  ],
  [
    'the one that is there',
    crew,
    [],
    swap('E6-1', 'C-1041', 'C-1041'),
    'Coat shell C-1041 is already in this place.',
  ],
  [
    'a spare that is away',
    crew,
    [sentAway('C-1900')],
    swap('E6-1', 'C-1900', 'C-1041'),
    'Coat shell C-1900 is away at North Wash for advanced cleaning.',
  ],
  [
    'a spare that is held',
    crew,
    [held('C-1900')],
    swap('E6-1', 'C-1900', 'C-1041'),
    'Coat shell C-1900 is held as evidence: injury on 22 Nov.',
  ],
  [
    'a spare that is retired',
    crew,
    [retired('C-1900')],
    swap('E6-1', 'C-1900', 'C-1041'),
    'Coat shell C-1900 is retired: ten years old.',
  ],
  [
    'a tagged spare',
    crew,
    [tagged('C-1900')],
    swap('E6-1', 'C-1900', 'C-1041'),
    'Coat shell C-1900 is itself out of service: torn seam.',
  ],
])('swapping is refused: %s', (_title, start, more, command, words) => {
  given(start, more).when(command).refuses(words).changesNothing()
})
