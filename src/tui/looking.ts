// When the board looks for what other programs recorded, and at the clock: when told, at each full minute, and now and then all the same. It must never look at anything itself.

/** Calls back when something was appended; what is not told of has to be looked for. */
export type Heed = (changed: () => void) => { isTold(): boolean; stop(): void }

interface Around {
  look: () => void
  nowMs: () => number
  heed: Heed
}

/** Two terminals see each other's work within a second. */
const UNTOLD_MS = 1_000
const TOLD_MS = 5_000
/** Whoever appends is told to have written before it is on disk; and much at once is looked at once. */
const UNTIL_SYNCED_MS = 250
const MINUTE_MS = 60_000

/** Returns how to stop it. */
export function keepLooking({ look, nowMs, heed }: Around): () => void {
  let soon: NodeJS.Timeout | undefined
  const heeding = heed(() => (soon ??= setTimeout(lookNow, UNTIL_SYNCED_MS)))
  let next = setTimeout(lookNow, UNTOLD_MS)
  function lookNow(): void {
    clearTimeout(soon)
    clearTimeout(next)
    soon = undefined
    const toMinute = MINUTE_MS - (nowMs() % MINUTE_MS)
    next = setTimeout(lookNow, Math.min(heeding.isTold() ? TOLD_MS : UNTOLD_MS, toMinute))
    look()
  }
  return () => {
    clearTimeout(soon)
    clearTimeout(next)
    heeding.stop()
  }
}
