// Which of the newest events one key recorded together; it must never look at the books.
import type { Event, EventOf } from '../events.ts'
import { familyOf } from '../kinds.ts'
import { instantToMs } from '../time.ts'

/** Events of one act are recorded one after the other; nobody does two acts within this time. */
const ONE_ACT_MS = 3_000

/** The events that the last key recorded together, the newest first: an assembly's layers, a batch of one care, a reading with its answer. */
export function lastAct(newest: readonly Event[]): Event[] {
  const act: Event[] = []
  for (const event of newest) {
    const later = act.at(-1)
    if (later && !isOneAct(event, later)) break
    act.push(event)
  }
  return act
}

const recordedMs = ({ at, data }: Event): number => instantToMs(data.recordedAt ?? at) ?? 0

function isOneAct(earlier: Event, later: Event): boolean {
  if (earlier.by !== later.by || recordedMs(later) - recordedMs(earlier) > ONE_ACT_MS) return false
  if (earlier.type === 'pressure-read' && later.type === 'seat-answered') return true
  if (earlier.type === 'care-recorded' && later.type === 'care-recorded') {
    const [one, two] = [earlier.data, later.data]
    return one.care === two.care && one.on === two.on && one.result === two.result
  }
  if (!isSwap(earlier) || earlier.type !== later.type) return false
  return earlier.data.seat === later.data.seat && familyOf(earlier.data.kind).includes(later.data.kind)
}
const isSwap = (event: Event): event is EventOf<'element-swapped' | 'swap-reversed'> =>
  event.type === 'element-swapped' || event.type === 'swap-reversed'
