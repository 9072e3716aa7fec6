// The disk says no at each call of a whole tour, once or for ever: what was accepted is there after a restart, and the journal goes on.
import { appendFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Command } from '../../src/domain/commands.ts'
import type { Files } from '../../src/store/files.ts'
import { failingFiles, type Fault } from '../store/failing-files.ts'
import { sessionOf } from './checks.ts'
import { FACTS, MADE_AT, NOW_MS } from './commands.ts'
import { store } from './store.ts'

export const CODES = ['ENOSPC', 'EIO', 'EDQUOT', 'EFBIG', 'EROFS', 'EACCES'] as const
const by = 'M-104'
const COMMANDS: readonly Command[] = [
  { do: 'add-member', by: 'setup', member: { id: by, name: 'A. Varga', platoon: 'B' } },
  { do: 'open-tour', by, tour: 'T-1', platoon: 'B', officer: by, on: '2026-11-24' },
  { do: 'hand-over', by, to: by },
  { do: 'note', by, text: 'after' },
]

/** A station whose last line is torn, so that recovery is part of the work. */
async function station(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'bayboard-fault-'))
  const trouble = await store.makeStation(folder, FACTS, MADE_AT)
  if (trouble) throw new Error(trouble.sentence)
  appendFileSync(join(folder, 'journal.jsonl'), '{"seq":2,"at":"2026')
  return folder
}

async function tour(folder: string, files: Files): Promise<number[]> {
  const keeper = await store.openStation(folder, files)
  if ('sentence' in keeper) return []
  const session = store.openSession(keeper, () => NOW_MS)
  await session.begin()
  const accepted: number[] = []
  for (const command of COMMANDS) {
    const answer = await session.submit(command)
    if ('accepted' in answer) accepted.push(...answer.accepted)
  }
  await session.close()
  return accepted
}

/** How often each call is made in a tour when nothing fails. */
export async function callsOfTour(): Promise<Map<keyof Files, number>> {
  const folder = await station()
  const { files, calls } = failingFiles()
  await tour(folder, files)
  rmSync(folder, { recursive: true })
  const counts = new Map<keyof Files, number>()
  for (const call of calls as (keyof Files)[]) counts.set(call, (counts.get(call) ?? 0) + 1)
  return counts
}

export async function tourWithFault(fault: Fault): Promise<string | undefined> {
  const folder = await station()
  const { files } = failingFiles(fault)
  const accepted = await tour(folder, files)
  const session = await sessionOf(store, folder)
  await session.begin()
  const text = readFileSync(join(folder, 'journal.jsonl'), 'utf8')
  const missing = accepted.filter((seq) => !text.includes(`{"seq":${seq},`))
  if (missing.length) return `events ${missing.join()} were accepted and are not there`
  const more = await session.submit({
    do: 'add-member',
    by: 'setup',
    member: { id: 'M-999', name: 'B. Okoro' },
  })
  await session.close()
  if (!('accepted' in more)) return `it does not go on: ${JSON.stringify(more)}`
  const checked = store.checkJournal(folder)
  if (checked.kind !== 'verified' || checked.faults.length || checked.torn) return 'it does not verify'
  const bad = checked.seals.filter(({ holds }) => !holds)
  rmSync(folder, { recursive: true })
  return bad.length ? `a seal does not hold: ${bad[0]!.what}` : undefined
}
