// A station's folder as a session keeps it: journal, lock and snapshot together. It must never decide what is recorded.
import type { Draft, EventData } from '../domain/events.ts'
import { apply, fork } from '../domain/evolve.ts'
import { emptyState, type State } from '../domain/state.ts'
import type { AppendRight, Keeper } from '../session.ts'
import type { Torn } from './catch-up.ts'
import type { Files } from './files.ts'
import { openJournal, type Journal, type Opened } from './journal.ts'
import { sayLostJournal } from './lost-journal.ts'
import { keptLock } from './kept-lock.ts'
import { withLock, type Held } from './lock.ts'
import { entriesNaming } from './search.ts'
import { verdictsToKeep, type KeptVerdicts } from '../domain/assess/kept.ts'
import { pack, STATE_VERSION, unpack } from './packed-state.ts'
import { cutSentence, newestClaim } from './seals/cut.ts'
import { sealingOf } from './seals/sealing.ts'
import { readSnapshot, writeSnapshot } from './snapshot.ts'
import { asEvent, KNOWN, readerOf, type Logged } from './understood.ts'

export type { Logged } from './understood.ts'

/** Why a station cannot be opened or made, for the user: there is none, the folder is taken, or the disk will not. */
export type NoStation = { why: 'none' | 'taken' | 'trouble'; sentence: string }

const noStation = (opened: Exclude<Opened, { kind: 'opened' }>, folder: string): NoStation => {
  const lost = opened.kind === 'no-station' ? sayLostJournal(folder) : undefined
  if (lost !== undefined) return { why: 'trouble', sentence: lost }
  return { why: opened.kind === 'no-station' ? 'none' : 'trouble', sentence: opened.sentence }
}

/** Opens the station in a folder. Reading changes nothing on disk; `files` is for tests of failing disks. */
export async function openStation(folder: string, files?: Files): Promise<Keeper | NoStation> {
  const snapshot = await readSnapshot(folder, STATE_VERSION)
  let isSpoilt = false
  const again = (): State => {
    isSpoilt = true
    return stateAt(folder, snapshot!.position.seq)
  }
  const unpacked = snapshot && unpack(snapshot.state, again)
  const state = unpacked?.state
  const opened = openJournal(folder, { from: state && snapshot?.position, ...(files && { files }) })
  const isFound = opened.kind === 'opened' && opened.startedAt === 'position'
  if (!isFound) snapshot?.state.close()
  if (opened.kind !== 'opened') return noStation(opened, folder)
  return keeperOf(folder, opened.journal, files, {
    state: () => (isFound && !isSpoilt ? state : undefined),
    verdicts: unpacked?.verdicts,
    close: () => snapshot?.state.close(),
  })
}

/** What a snapshot whose far part was spoilt would have held. */
function stateAt(folder: string, seq: number): State {
  const state = fork(emptyState())
  readEvents(folder, (event) => {
    if (event.seq <= seq) apply(state, event)
  })
  if (state.seq === seq) return state
  throw new Error(`The snapshot in ${folder} is damaged, and the journal that it was made from is too`)
}

type Found = { state: () => State | undefined; verdicts: KeptVerdicts | undefined; close: () => void }

function keeperOf(folder: string, journal: Journal, files: Files | undefined, found: Found): Keeper {
  let torn: Torn | undefined
  let cut: string | undefined
  let claim = newestClaim(folder, files)
  const lock = keptLock(folder)
  const reader = readerOf()
  const sealing = sealingOf(folder, journal, files)

  const rightOf = (held: Held): AppendRight => ({
    append(draft) {
      const appended = journal.append(held, draft)
      return appended.ok ? { event: asEvent(appended.entry) } : { failed: appended.sentence }
    },
    recover(now) {
      if (!torn || cut !== undefined) return undefined
      const aside = journal.setTornAside(held, torn, now())
      torn = undefined
      return aside.ok
        ? { draft: { type: 'journal-recovered', data: { file: aside.name, bytes: aside.bytes } } }
        : { failed: aside.sentence }
    },
    sealing,
  })

  return {
    get kept() {
      return found.state()
    },
    verdicts: found.verdicts,
    get head() {
      return journal.head
    },
    get stopped() {
      return reader.strange() ?? journal.stopped ?? cut
    },
    get torn() {
      return torn?.bytes
    },
    async alone(work) {
      const locked = await lock.alone((held) => work(rightOf(held)))
      return locked.ok ? { value: locked.value } : { failed: locked.sentence }
    },
    catchUp(deliver) {
      const caught = journal.catchUp((entry) => reader.take(entry, deliver))
      torn = caught.kind === 'torn' ? caught.torn : undefined
      if (caught.kind === 'whole' || caught.kind === 'torn') {
        cut ??= cutSentence(folder, claim, journal.head, files)
        claim = undefined
      }
      return caught.kind === 'damaged' || caught.kind === 'unreadable' ? caught.sentence : undefined
    },
    async keep(state, at) {
      await writeSnapshot(folder, STATE_VERSION, journal.head, pack(state, verdictsToKeep(state, at)))
    },
    close() {
      lock.giveBack()
      found.close()
      journal.close()
    },
  }
}

/** Delivers every event from the first; the sentence when the journal cannot be read to its end. */
export function readEvents(folder: string, take: (event: Logged) => void): NoStation | { stopped?: string } {
  const opened = openJournal(folder)
  if (opened.kind !== 'opened') return noStation(opened, folder)
  const { journal } = opened
  const reader = readerOf()
  const caught = journal.catchUp((entry) => reader.take(entry, take))
  journal.close()
  const stopped =
    caught.kind === 'damaged' || caught.kind === 'unreadable' ? caught.sentence : reader.strange()
  return stopped === undefined ? {} : { stopped }
}

/**
 * Delivers the events up to `lastSeq` whose lines name an id, and perhaps some more, without reading the rest; false,
 * with nothing delivered, when a line does not check and the journal has to be read from its start.
 */
export function readEventsNaming(
  folder: string,
  names: readonly string[],
  lastSeq: number,
  take: (event: Logged) => void,
): boolean {
  const entries = entriesNaming(folder, names, lastSeq)
  if (!entries?.every((entry) => KNOWN.has(entry.type))) return false
  for (const entry of entries) take(asEvent(entry))
  return true
}

/** Makes an empty station: a journal whose first event says what the station is. Refuses a folder that holds one. */
export async function makeStation(
  folder: string,
  facts: EventData['station-made'],
  at: string,
): Promise<NoStation | undefined> {
  const lost = sayLostJournal(folder)
  if (lost !== undefined) return { why: 'trouble', sentence: lost }
  const opened = openJournal(folder, { make: true })
  if (opened.kind !== 'opened') return noStation(opened, folder)
  const { journal } = opened
  const made = await withLock(folder, (held): NoStation | undefined => {
    const caught = journal.catchUp(() => undefined)
    if (journal.head.seq > 0 || journal.stopped) {
      return {
        why: 'taken',
        sentence: `There is already a station in ${folder}. Nothing was changed. Name another folder.`,
      }
    }
    // A making that was cut short has left part of a first line, which nobody was told is a station.
    const aside = caught.kind === 'torn' ? journal.setTornAside(held, caught.torn, at) : undefined
    if (aside?.ok === false) return { why: 'trouble', sentence: aside.sentence }
    const draft = { type: 'station-made', data: facts } satisfies Draft
    const appended = journal.append(held, { ...draft, at, by: 'setup' })
    return appended.ok ? undefined : { why: 'trouble', sentence: appended.sentence }
  })
  journal.close()
  return made.ok ? made.value : { why: 'trouble', sentence: made.sentence }
}
