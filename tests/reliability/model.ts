// One random history against a model: whatever moment the power goes, what comes back is the model after k events, acknowledged <= k <= issued.
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { isDeepStrictEqual } from 'node:util'
import type { Command } from '../../src/domain/commands.ts'
import type { Event } from '../../src/domain/events.ts'
import { replay } from '../../src/domain/evolve.ts'
import { emptyState } from '../../src/domain/state.ts'
import type { Keeper, Session } from '../../src/session.ts'
import { anyCommands, FACTS, MADE_AT, NOW_MS } from './commands.ts'
import { diceOf } from './dice.ts'
import { powerDisk } from './power-disk.ts'
import type { Store } from './store.ts'

const clock = (): number => NOW_MS

/** The same loop over a list in memory: what the journal has to say. */
async function modelOf(store: Store, commands: readonly Command[]): Promise<Event[]> {
  const made: Event = { seq: 1, at: MADE_AT, by: 'setup', type: 'station-made', data: FACTS }
  const events: Event[] = [made]
  const keeper: Keeper = {
    get head() {
      return { seq: events.length, hash: '' }
    },
    stopped: undefined,
    kept: replay(emptyState(), [made]),
    alone: async (work) => {
      const append = (draft: object) => {
        const event = { seq: events.length + 1, ...draft } as Event
        events.push(JSON.parse(JSON.stringify(event)) as Event)
        return { event }
      }
      return { value: work({ append, recover: () => undefined }) }
    },
    catchUp: () => undefined,
    keep: async () => undefined,
    close: () => undefined,
  }
  const session = store.openSession(keeper, clock)
  for (const command of commands) await session.submit(command)
  return events
}

/** A key is another one each time. */
const withoutKey = ({ seq, at, by, type, data }: Event): unknown => {
  const { sealKey: _, ...rest } = data as Record<string, unknown>
  return { seq, at, by, type, data: rest }
}

/** Read by nothing of the program: the lines that are JSON, up to the first that is none. */
function eventsIn(folder: string): Event[] {
  const events: Event[] = []
  for (const line of readFileSync(join(folder, 'journal.jsonl'), 'utf8').split('\n').slice(0, -1)) {
    try {
      events.push(JSON.parse(line) as Event)
    } catch {
      break
    }
  }
  return events
}

async function opened(store: Store, folder: string, files?: Store['realFiles']): Promise<Session | string> {
  const keeper = await store.openStation(folder, files)
  return 'sentence' in keeper ? keeper.sentence : store.openSession(keeper, clock)
}

/** What is wrong, or undefined. `commands` of the seed are given until the power goes at a random call; recovery is cut short up to twice. */
export async function runSeed(store: Store, seed: number): Promise<string | undefined> {
  const dice = diceOf(seed)
  const commands = anyCommands(seed).slice(0, 20 + dice.under(25))
  const folder = mkdtempSync(join(tmpdir(), 'bayboard-model-'))
  try {
    if (await store.makeStation(folder, FACTS, MADE_AT)) return 'no station was made'
    const model = await modelOf(store, commands)
    const disk = powerDisk(folder, dice)
    disk.settle()
    const session = await opened(store, folder, disk.files)
    if (typeof session === 'string') return session
    // A command takes two changing calls, a first hand-over a dozen.
    disk.cutAt(1 + dice.under(commands.length * 2))
    let acknowledged = 1
    for (const command of commands) {
      const answer = await session.submit(command)
      if (disk.isCut) {
        if ('accepted' in answer) acknowledged = answer.accepted.at(-1)!
        break
      }
      if ('accepted' in answer) acknowledged = answer.accepted.at(-1)!
    }
    disk.comeBack()
    const torn = tailOf(store, folder)
    for (let turn = dice.under(3); turn > 0; turn--) {
      const again = powerDisk(folder, dice)
      again.settle()
      const recovering = await opened(store, folder, again.files)
      if (typeof recovering === 'string') return `recovery ${turn}: ${recovering}`
      again.cutAt(1 + dice.under(8))
      await recovering.begin()
      again.comeBack()
    }
    return await judge(store, folder, model, acknowledged, torn)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** What stands after the last sound line. */
function tailOf(store: Store, folder: string): Buffer {
  const verified = store.verifyJournal(folder)
  const ends = verified.kind === 'verified' ? verified.head.offset : 0
  return readFileSync(join(folder, 'journal.jsonl')).subarray(ends)
}

async function judge(store: Store, folder: string, model: Event[], acknowledged: number, torn: Buffer) {
  const session = await opened(store, folder)
  if (typeof session === 'string') return session
  const { state } = session
  const found = eventsIn(folder).slice(0, state.seq)
  const told = found.filter((each) => each.type !== 'journal-recovered')
  const k = told.length
  if (k < acknowledged) return `${acknowledged} events were acknowledged and ${k} are there`
  if (k > Math.min(acknowledged + 1, model.length))
    return `${k} events are there and ${acknowledged + 1} were issued`
  if (found.length === k && !isDeepStrictEqual(told.map(withoutKey), model.slice(0, k).map(withoutKey))) {
    return 'the events are not those of the model'
  }
  if (!isDeepStrictEqual(state, replay(emptyState(), found))) return 'the state is not that of the events'
  await session.begin()
  if (
    !('accepted' in (await session.submit({ do: 'note', by: 'setup', text: 'goes on' }))) &&
    state.members.size === 0
  )
    return `it does not go on: ${session.stopped}`
  await session.close()
  const verified = store.verifyJournal(folder)
  if (verified.kind !== 'verified' || verified.faults.length > 0 || verified.torn) {
    return `it does not verify: ${JSON.stringify(verified)}`
  }
  const isAside = readdirSync(folder)
    .filter((name) => name.startsWith('journal.torn-'))
    .some((name) => readFileSync(join(folder, name)).equals(torn))
  return torn.length > 0 && !isAside ? 'the bytes that were cut off are not set aside' : undefined
}
