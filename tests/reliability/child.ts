// A program for the campaign that works on a station until it is done, killed or stopped: it says what was accepted, and nothing else.
import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import type { Command } from '../../src/domain/commands.ts'
import { sessionOf } from './checks.ts'
import { FACTS, MADE_AT } from './commands.ts'
import { store } from './store.ts'

const [folder = '', mode = '', name = '', count = '0'] = process.argv.slice(2)
const by = 'M-104'

const TOUR: readonly Command[] = [
  { do: 'add-member', by: 'setup', member: { id: by, name: 'A. Varga', platoon: 'B' } },
  { do: 'open-tour', by, tour: 'T-1', platoon: 'B', officer: by, on: '2026-11-24' },
  { do: 'note', by, text: 'hydrant 12 frozen' },
  { do: 'hand-over', by, to: by },
  { do: 'note', by, text: 'after the hand-over' },
]

const say = (words: string): void => void process.stdout.write(`${words}\n`)

async function work(commands: readonly Command[]): Promise<void> {
  const session = await sessionOf(store, folder)
  await session.begin()
  for (const command of commands) {
    const answer = await session.submit(command)
    say('accepted' in answer ? `accepted ${answer.accepted[0]}` : Object.values(answer).join())
  }
  await session.close()
}

/** Takes the lock, says so, and appends a while later: in between it can be stopped. */
async function slowly(): Promise<void> {
  const opened = store.openJournal(folder)
  if (opened.kind !== 'opened') throw new Error(opened.sentence)
  const { journal } = opened
  await store.withLock(folder, async (held) => {
    journal.catchUp(() => undefined)
    say('inside')
    await sleep(500)
    const draft = { at: '2026-11-24T07:00:00.000-05:00', by, type: 'note-made', data: { text: name } }
    const appended = journal.append(held, draft)
    say(appended.ok ? `accepted ${appended.entry.seq}` : appended.why)
  })
}

/** On a disk that is full at some point: what was accepted is there when there is room again, and it goes on. */
async function untilFull(): Promise<void> {
  const filler = join(folder, 'filler')
  writeFileSync(filler, Buffer.alloc(16_384))
  await store.makeStation(folder, FACTS, MADE_AT)
  const session = await sessionOf(store, folder)
  await session.submit(TOUR[0]!)
  let accepted = 0
  for (; accepted < 5_000; accepted++) {
    const answer = await session.submit({ do: 'note', by, text: `note ${accepted}` })
    if ('accepted' in answer) continue
    say(
      'failed' in answer && /ENOSPC|only \d+ of \d+ bytes/.test(answer.failed)
        ? 'full'
        : JSON.stringify(answer),
    )
    break
  }
  await session.close()
  rmSync(filler)
  const again = await sessionOf(store, folder)
  await again.begin()
  const more = await again.submit({ do: 'note', by, text: 'after' })
  await again.close()
  const verified = store.verifyJournal(folder)
  const notes = readFileSync(join(folder, 'journal.jsonl'), 'utf8').match(/"text":"note \d+"/g) ?? []
  const isSound = 'accepted' in more && verified.kind === 'verified' && !verified.faults.length
  say(
    isSound && notes.length === accepted
      ? `sound after ${accepted}`
      : JSON.stringify({ more, verified, accepted }),
  )
}

if (mode === 'full') await untilFull()
else if (mode === 'tour') await work(TOUR)
else if (mode === 'recover') await work([])
else if (mode === 'slowly') await slowly()
else {
  await work(
    Array.from({ length: Number(count) }, (_, n) => ({ do: 'note', by, text: `${name} ${n}` }) as const),
  )
}
