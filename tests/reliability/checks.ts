// One check for each promise about the journal, in a form that a broken store can be put to: each says what is wrong, or nothing.
import { appendFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Command } from '../../src/domain/commands.ts'
import type { Session } from '../../src/session.ts'
import type { Files } from '../../src/store/files.ts'
import { madeOf } from '../exports/made.ts'
import { smallTour } from '../exports/tours.ts'
import { failingFiles } from '../store/failing-files.ts'
import { FACTS, MADE_AT, NOW_MS } from './commands.ts'
import { runSeed } from './model.ts'
import type { Store } from './store.ts'

export type Check = (store: Store) => Promise<string | undefined>

const by = 'M-104'
const member: Command = { do: 'add-member', by: 'setup', member: { id: by, name: 'A. Varga', platoon: 'B' } }
const note = (text: string): Command => ({ do: 'note', by, text })
const journalIn = (folder: string): string => join(folder, 'journal.jsonl')

async function withStation<T>(store: Store, work: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'bayboard-check-'))
  try {
    const trouble = await store.makeStation(folder, FACTS, MADE_AT)
    if (trouble) throw new Error(trouble.sentence)
    return await work(folder)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

export async function sessionOf(
  store: Store,
  folder: string,
  clock: () => number = () => NOW_MS,
  files?: Files,
): Promise<Session> {
  const keeper = await store.openStation(folder, files)
  if ('sentence' in keeper) throw new Error(keeper.sentence)
  return store.openSession(keeper, clock)
}

async function filled(store: Store, folder: string, notes: number): Promise<void> {
  const session = await sessionOf(store, folder)
  for (const command of [member, ...Array.from({ length: notes }, (_, n) => note(`note ${n}`))]) {
    const answer = await session.submit(command)
    if (!('accepted' in answer)) throw new Error(JSON.stringify(answer))
  }
  await session.close()
}

/** Random histories, the power cut at random calls. */
export const powerLoss =
  (from: number, seeds: number): Check =>
  async (store) => {
    for (let seed = from; seed < from + seeds; seed++) {
      const wrong = await runSeed(store, seed)
      if (wrong !== undefined) return `seed ${seed}: ${wrong}`
    }
    return undefined
  }

/** The order of calls: an event is written whole, then synced, and only then accepted. */
export const orderOfCalls: Check = (store) =>
  withStation(store, async (folder) => {
    await filled(store, folder, 0)
    const { files, calls } = failingFiles()
    const session = await sessionOf(store, folder, undefined, files)
    calls.length = 0
    await session.submit(note('one'))
    const told = calls.filter((call) => call === 'write' || call === 'fdatasync').join(' ')
    await session.close()
    return told === 'write fdatasync' ? undefined : `an event was accepted after: ${told || 'nothing'}`
  })

/** The disk says no once, at each call and in each way: nothing is accepted that is not there, and nothing more after it. */
export const oneFault: Check = async (store) => {
  for (const fault of [
    { call: 'write', code: 'ENOSPC' },
    { call: 'write', short: 20 },
    { call: 'fdatasync', code: 'EIO' },
  ] as const) {
    const wrong = await withStation(store, async (folder) => {
      await filled(store, folder, 1)
      const session = await sessionOf(store, folder, undefined, failingFiles(fault).files)
      const first = await session.submit(note('first'))
      if ('accepted' in first) return 'an event was accepted that the disk refused'
      const second = await session.submit(note('second'))
      if ('accepted' in second) return 'the journal went on after the disk had refused'
      await session.close()
      return undefined
    })
    if (wrong !== undefined) return `${JSON.stringify(fault)}: ${wrong}`
  }
  return undefined
}

/** Every bit of a journal of `lines` lines flipped, one at a time; `every` leaves out the ones between. */
export const bitFlips =
  (lines: number, every: number, count = (): void => undefined): Check =>
  (store) =>
    withStation(store, async (folder) => {
      await filled(store, folder, lines - 2)
      const sound = readFileSync(journalIn(folder))
      rmSync(join(folder, 'snapshot.json'), { force: true })
      for (let bit = 0; bit < sound.length * 8; bit += every) {
        count()
        const bytes = Buffer.from(sound)
        bytes[bit >> 3]! ^= 1 << (bit & 7)
        writeFileSync(journalIn(folder), bytes)
        const verified = store.verifyJournal(folder)
        if (verified.kind !== 'verified' || verified.faults.length === 0)
          return `bit ${bit} was changed and it verifies`
        const opened = store.openJournal(folder)
        if (opened.kind !== 'opened') continue
        const caught = opened.journal.catchUp(() => undefined)
        opened.journal.close()
        if (caught.kind === 'whole') return `bit ${bit} was changed and it is read as whole`
      }
      return undefined
    })

/** A line changed in the middle: open for reading only, said, and not repaired. */
export const damage: Check = (store) =>
  withStation(store, async (folder) => {
    await filled(store, folder, 5)
    rmSync(join(folder, 'snapshot.json'), { force: true })
    const changed = readFileSync(journalIn(folder), 'utf8').replace('"note 2"', '"note X"')
    writeFileSync(journalIn(folder), changed)
    const session = await sessionOf(store, folder)
    const answer = await session.submit(note('more'))
    await session.close()
    if ('accepted' in answer) return 'a damaged journal took an event'
    return readFileSync(journalIn(folder), 'utf8') === changed ? undefined : 'a damaged journal was changed'
  })

/** The last line torn at every byte: set aside exactly, and the journal goes on. */
export const tornTail =
  (every: number, count = (): void => undefined): Check =>
  (store) =>
    withStation(store, async (folder) => {
      await filled(store, folder, 2)
      const sound = readFileSync(journalIn(folder))
      const start = sound.lastIndexOf(10, sound.length - 2) + 1
      for (let size = start + 1; size < sound.length; size += every) {
        count()
        for (const name of readdirSync(folder)) rmSync(join(folder, name), { recursive: true })
        writeFileSync(journalIn(folder), sound.subarray(0, size))
        const session = await sessionOf(store, folder)
        await session.begin()
        const answer = await session.submit(note('goes on'))
        await session.close()
        if (!('accepted' in answer)) return `cut at byte ${size}: ${JSON.stringify(answer)}`
        const aside = readdirSync(folder).filter((name) => name.startsWith('journal.torn-'))
        const kept = aside.map((name) => readFileSync(join(folder, name)))
        if (kept.length !== 1 || !kept[0]!.equals(sound.subarray(start, size)))
          return `cut at byte ${size}: what was cut off is not set aside`
        const verified = store.verifyJournal(folder)
        if (verified.kind !== 'verified' || verified.faults.length)
          return `cut at byte ${size}: it does not verify`
      }
      return undefined
    })

/** The clock steps back an hour and ten years, and forward a day: the order is that of the journal. */
export const clockSteps: Check = (store) =>
  withStation(store, async (folder) => {
    let ms = NOW_MS
    const session = await sessionOf(store, folder, () => ms)
    await session.submit(member)
    for (const [text, step] of [
      ['first', -3_600_000],
      ['second', -10 * 365 * 86_400_000],
      ['third', 10 * 366 * 86_400_000],
      ['fourth', 0],
    ] as const) {
      await session.submit(note(text))
      ms += step
    }
    await session.close()
    rmSync(join(folder, 'snapshot.json'), { force: true })
    const again = await sessionOf(store, folder)
    const told = again.state.notes.map((each) => each.text).join()
    await again.close()
    return told === 'first,second,third,fourth' ? undefined : `the notes are read as ${told}`
  })

/** Another program appended meanwhile: the head is looked at again under the lock. */
export const headAgain: Check = (store) =>
  withStation(store, async (folder) => {
    await filled(store, folder, 0)
    const [one, other] = [await sessionOf(store, folder), await sessionOf(store, folder)]
    await one.submit(note('one'))
    await other.submit(note('other'))
    await Promise.all([one.close(), other.close()])
    const verified = store.verifyJournal(folder)
    const isSound = verified.kind === 'verified' && verified.faults.length === 0
    return isSound ? undefined : 'two programs forked the journal'
  })

/** While one program has the lock, another waits. */
export const oneAtATime: Check = (store) =>
  withStation(store, async (folder) => {
    let isInside = false
    let overlaps = false
    const kept = store.keptLock(folder)
    const sessions: Promise<unknown>[] = []
    const work = async (): Promise<void> => {
      overlaps ||= isInside
      isInside = true
      sessions.push(kept.alone(() => (overlaps ||= isInside)))
      await new Promise((resolve) => setTimeout(resolve, 5))
      isInside = false
    }
    await Promise.all([1, 2, 3].map(() => store.withLock(folder, work)))
    await Promise.all(sessions)
    kept.giveBack()
    return overlaps ? 'two had the lock at once' : undefined
  })

/** What could drive a terminal is nowhere raw: not in the file, not in what is shown. */
export const escapes: Check = async (store) => {
  const hostile = 'a\u001b[2Jb\u009b31mc\u202ed\u2066e\u0000f\u007fg\ud800h'
  const raw = /[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/
  const { line } = store.formatLine(
    { at: MADE_AT, by: hostile, type: 'note-made', data: { text: hostile } },
    1,
    '0'.repeat(64),
  )
  if (raw.test(line)) return 'a line of the journal holds a raw control'
  return raw.test(store.cleanText(hostile)) ? 'a text that is shown holds a raw control' : undefined
}

/** A seal of another length, of another hash or by nobody is told. */
export const seals: Check = (store) =>
  withStation(store, async (folder) => {
    await filled(store, folder, 0)
    const session = await sessionOf(store, folder)
    await session.submit({ do: 'open-tour', by, tour: 'T-1', platoon: 'B', officer: by, on: '2026-11-24' })
    await session.submit({ do: 'hand-over', by, to: by })
    await session.close()
    const text = store.newestSeal(folder, 'T-1')?.text
    if (text === undefined) return 'no seal was made'
    const holds = (seal: string): boolean => {
      const checked = store.checkJournal(folder, { against: [{ name: 'kept', text: seal }] })
      return checked.kind === 'verified' && checked.against[0]!.holds
    }
    if (!holds(text)) return 'a good seal does not hold'
    if (holds(text.replace('tour T-1', 'tour T-2'))) return 'an altered seal holds'
    const lines = readFileSync(journalIn(folder), 'utf8').split('\n')
    writeFileSync(journalIn(folder), `${lines.slice(0, -2).join('\n')}\n`)
    if (holds(text)) return 'a seal holds over a journal that was shortened'
    appendFileSync(journalIn(folder), `${lines.at(-2)}\n`)
    return holds(text) ? undefined : 'a good seal no longer holds'
  })

/** No cell of an exported file acts as a formula where it is opened: the signs are those that OWASP names for CSV injection. */
export const formulas: Check = async (store) => {
  const log = madeOf(smallTour())
  for (const id of ['=1+1', '+1', '-1', '@SUM(A1)', '\uff1d1', '\t=1']) {
    const cells = store.asCsv({ ...log, tour: { ...log.tour, id } }).split(/[\r\n,]+/)
    const acting = cells.find((cell) => /^"?[=+@\uff1d\t-]/.test(cell))
    if (acting !== undefined) return `a cell acts as a formula: ${acting}`
  }
  return undefined
}
