// Writes data/demo/station.jsonl, the invented demonstration station; the same script must always give the same bytes.
import { mkdir, writeFile } from 'node:fs/promises'
import { dirname } from 'node:path'
import { fileURLToPath } from 'node:url'
import { writeCares } from './demo/cares.mjs'
import { equip } from './demo/gear.mjs'
import { ledger } from './demo/ledger.mjs'
import { writeOpenTour } from './demo/open-tour.mjs'
import { addPeople } from './demo/people.mjs'
import { writeTours } from './demo/tours.mjs'

const HEADER = {
  invented: 'Every person, place, maker and piece of gear in this file is invented for demonstration.',
  station: { name: 'Station 9 (demonstration)', rotation: '24/48', starts: '07:00' },
  when: { daysAgo: 460, time: '08:00' },
}

const book = ledger()
const people = addPeople(book)
const gear = equip(book, people)
writeCares(book, people, gear)
writeTours(book, people, gear)
writeOpenTour(book, people, gear)

const out = process.argv[2] ?? fileURLToPath(new URL('../data/demo/station.jsonl', import.meta.url))
await mkdir(dirname(out), { recursive: true })
await writeFile(out, [HEADER, ...book.lines()].map((line) => `${JSON.stringify(line)}\n`).join(''))
