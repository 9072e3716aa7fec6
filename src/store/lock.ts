// The lock that lets one program at a time write to a station; it must never end the program or wait without an end.
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { codeOf, whyOf } from './trouble.ts'

/** Proof that the lock was had; `isLost` turns true when another program has taken it over, or the work is done. */
export type Held = { isLost(): boolean }

export type Locked<T> = { ok: true; value: T } | { ok: false; why: 'busy' | 'unwritable'; sentence: string }

export const LOCK_NAME = 'journal.lock'

const STALE_MS = 10_000
const UPDATE_MS = 2_000
// Longer than a lock takes to become stale, so that a program that was killed while writing delays the next one and no more.
const PATIENCE_MS = 15_000
const SHORTEST_WAIT_MS = 2
/** Whoever waits knocks at least this often. */
export const LONGEST_WAIT_MS = 40

/** Does `work` while no other program can write to the station; waits for the lock up to `patienceMs`. */
export const withLock = async <T>(
  folder: string,
  work: (held: Held) => T | Promise<T>,
  patienceMs: number = PATIENCE_MS,
): Promise<Locked<T>> => {
  // Loaded when something is to be written: a station can be shown without it.
  const {
    default: { lock },
  } = await import('proper-lockfile')
  let isLost = false
  const giveUpAt = performance.now() + patienceMs
  const acquire = () =>
    lock(join(folder, 'journal.jsonl'), {
      lockfilePath: join(folder, LOCK_NAME),
      realpath: false,
      stale: STALE_MS,
      update: UPDATE_MS,
      onCompromised: () => {
        isLost = true
      },
    })
  const release = await acquirePatiently(acquire, giveUpAt)
  if ('error' in release) return refusal(folder, release.error)
  try {
    return { ok: true, value: await work({ isLost: () => isLost }) }
  } finally {
    isLost = true
    // What was done is on disk by now; a lock that cannot be given back becomes stale by itself.
    await release.give().catch(() => undefined)
  }
}

type Acquired = { give: () => Promise<void> } | { error: unknown }

const acquirePatiently = async (
  acquire: () => Promise<() => Promise<void>>,
  giveUpAt: number,
): Promise<Acquired> => {
  for (let ceilingMs = SHORTEST_WAIT_MS * 2; ; ceilingMs = Math.min(ceilingMs * 1.5, LONGEST_WAIT_MS)) {
    try {
      return { give: await acquire() }
    } catch (error) {
      if (codeOf(error) !== 'ELOCKED' || performance.now() >= giveUpAt) return { error }
    }
    // Waits of differing length keep several programs from knocking at the same moment again and again.
    await sleep(SHORTEST_WAIT_MS + Math.random() * (ceilingMs - SHORTEST_WAIT_MS))
  }
}

const refusal = (folder: string, error: unknown): Locked<never> =>
  codeOf(error) === 'ELOCKED'
    ? {
        ok: false,
        why: 'busy',
        sentence:
          'Another program is writing to this station, so nothing was recorded. What was accepted before is safe. ' +
          `Try again; if no other program is running, remove the folder ${join(folder, LOCK_NAME)}.`,
      }
    : {
        ok: false,
        why: 'unwritable',
        sentence:
          `The station cannot be locked for writing: ${whyOf(error)}. Nothing was recorded; what was accepted before is safe. ` +
          `Check that this account may write in ${folder}.`,
      }
