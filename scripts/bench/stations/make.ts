// Makes an invented station of a wanted size in a folder, with the snapshot that a board would have left some events ago.
import { existsSync, mkdirSync, mkdtempSync, renameSync, rmSync } from 'node:fs'
import { dirname } from 'node:path'
import { addDays, daysBetween, type LocalDate } from '../../../src/domain/time.ts'
import { DEFAULT_BASE } from '../../../src/domain/policy/bases.ts'
import { verdictsToKeep } from '../../../src/domain/assess/kept.ts'
import { pack, STATE_VERSION } from '../../../src/store/packed-state.ts'
import { writeSnapshot } from '../../../src/store/snapshot.ts'
import { openBook, ZONE, type Book } from './book.ts'
import { diceOf } from './dice.ts'
import { PLATOONS, setUp, type Measures } from './setting-up.ts'
import { toursOf } from './tours.ts'

const YEARS = 12
const EVENTS_IN_FIRST_YEARS = 60

/** How many events a board that is left leaves behind its last snapshot at most. */
const TAIL = 100

/**
 * Exactly `events` events that lead up to the morning of `today`, when a tour is open. The longer the journal, the more
 * years; after a dozen years the days are fuller instead. The same arguments give the same bytes.
 */
export async function makeStation(folder: string, measures: Measures, today: LocalDate): Promise<void> {
  if (existsSync(folder)) return
  mkdirSync(dirname(folder), { recursive: true })
  // Two runs may be making the same station: each has its own until one of them is whole.
  const making = mkdtempSync(`${folder}.making-`)
  const book = openBook(making)
  try {
    await write(book, making, measures, today)
  } finally {
    book.close()
  }
  try {
    renameSync(making, folder)
  } catch (error) {
    rmSync(making, { recursive: true, force: true })
    // The other was sooner, and made the same.
    if (!existsSync(folder)) throw error
  }
}

async function write(book: Book, folder: string, measures: Measures, today: LocalDate): Promise<void> {
  const dice = diceOf(measures.events * 7 + measures.seats * 31 + measures.elements)
  // A tour seats everybody, reads every gauge and takes every answer, and is handed over.
  const usual = measures.seats * 3 + Math.ceil(measures.seats / 4) + 20
  const days = Math.max(
    1,
    Math.min(YEARS * 365, Math.floor((measures.events - EVENTS_IN_FIRST_YEARS) / usual)),
  )
  const first = addDays(today, -days)
  book.turnTo(first, '05:00')
  book.made({
    format: 1,
    name: 'Station 77 (measured)',
    timeZone: ZONE,
    rotation: '24/48',
    starts: '07:00',
    policy: DEFAULT_BASE,
    invented: true,
  })
  const crew = setUp(book, dice, measures, first)
  let snapshot: Promise<unknown> | undefined
  const keepAt = Math.max(book.position.seq, measures.events - TAIL)
  const full = (): boolean => {
    if (book.position.seq >= keepAt) snapshot ??= keep(book, folder)
    return book.position.seq >= measures.events
  }
  const tours = toursOf(book, dice, crew, full)
  for (let date = first; !full(); date = addDays(date, 1)) {
    const day = daysBetween(first, date)
    const platoon = PLATOONS[day % PLATOONS.length]!
    if (day > 0) tours.handOver(date, platoon)
    const isLast = date >= today
    book.turnTo(date, '07:00')
    tours.tour(
      date,
      platoon,
      isLast ? Infinity : Math.floor((measures.events - book.position.seq) / (days - day + 1)),
    )
  }
  await snapshot
}

/** Packs at once, so that what comes after it is not in it; the journal that it stands for has to be in its file. */
async function keep(book: Book, folder: string): Promise<void> {
  book.flush()
  const { position, state, at } = book
  await writeSnapshot(folder, STATE_VERSION, position, pack(state, verdictsToKeep(state, at)))
}
