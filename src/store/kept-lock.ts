// The lock as a session takes it: at once where it is free, and kept for a moment, since one act seldom comes alone. It must never be kept from whoever waits for it.
import { mkdirSync, rmdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import onExit from 'signal-exit'
import { LOCK_NAME, LONGEST_WAIT_MS, withLock, type Held, type Locked } from './lock.ts'
import { codeOf } from './trouble.ts'

type KeptLock = {
  /** Does `work` while no other program can write to the station. */
  alone<T>(work: (held: Held) => T): Promise<Locked<T>>
  giveBack(): void
}

/** Making and removing the lock's folder takes more than half of a durable append; so soon after, the next act needs neither. */
const LINGER_MS = 20
/** A long run of acts pauses after so long, and sooner once another has taken its turn in a pause. */
const LONGEST_HOLD_MS = 1_000
const SHORTEST_HOLD_MS = 100
/** Whoever waits has knocked by then. */
const PAUSE_MS = LONGEST_WAIT_MS + 10

/** What this process would leave behind if it ended now, by itself or by a signal: the next program would wait ten seconds. */
const kept = new Set<() => void>()
let isWatching = false
const giveAllBackAtTheEnd = (): void => {
  if (!isWatching) onExit(() => kept.forEach((giveBack) => giveBack()))
  isWatching = true
}

export const keptLock = (folder: string): KeptLock => {
  const path = join(folder, LOCK_NAME)
  let own: string | undefined
  let takenAt = 0
  let holdMs = LONGEST_HOLD_MS
  let usedAt = 0
  let lingering: NodeJS.Timeout | undefined

  const giveBack = (): void => {
    clearTimeout(lingering)
    lingering = undefined
    kept.delete(giveBack)
    if (own !== undefined && markOf(path) === own) removeQuietly(path)
    own = undefined
  }
  /** One timer a moment, not one an act. */
  const linger = (): void => {
    const leftMs = usedAt + LINGER_MS - performance.now()
    if (leftMs > 0) lingering = setTimeout(linger, Math.ceil(leftMs))
    else giveBack()
  }
  const take = (): boolean => {
    // Whoever was stopped for long may find that another has taken the lock over.
    if (own !== undefined && markOf(path) === own) return true
    own = takeAtOnce(path)
    if (own === undefined) return false
    takenAt = performance.now()
    giveAllBackAtTheEnd()
    kept.add(giveBack)
    return true
  }
  const pause = async (): Promise<void> => {
    giveBack()
    await sleep(PAUSE_MS)
    holdMs = take() ? Math.min(2 * holdMs, LONGEST_HOLD_MS) : SHORTEST_HOLD_MS
  }

  return {
    async alone(work) {
      if (own !== undefined && performance.now() - takenAt > holdMs) await pause()
      if (!take()) return withLock(folder, work)
      let isDone = false
      try {
        return { ok: true, value: work({ isLost: () => isDone || markOf(path) !== own }) }
      } catch (error) {
        giveBack()
        throw error
      } finally {
        isDone = true
        usedAt = performance.now()
        if (own !== undefined && lingering === undefined) linger()
      }
    },
    giveBack,
  }
}

const takeAtOnce = (path: string): string | undefined => {
  try {
    mkdirSync(path)
  } catch (error) {
    if (codeOf(error) === undefined) throw error
    return undefined
  }
  return markOf(path)
}

/** Tells one taking of the lock from the next. */
const markOf = (path: string): string | undefined => {
  const stats = statSync(path, { throwIfNoEntry: false, bigint: true })
  return stats && `${stats.ino}:${stats.mtimeNs}`
}

const removeQuietly = (path: string): void => {
  try {
    rmdirSync(path)
  } catch (error) {
    if (codeOf(error) === undefined) throw error
  }
}
