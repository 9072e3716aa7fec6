// Several real processes on one station, running, dead or stopped with the lock in hand: no line doubled, lost or out of the chain.
import { spawn, type ChildProcess } from 'node:child_process'
import { readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { sessionOf } from './checks.ts'
import { ageLock, freshStation } from './kills.ts'
import { store } from './store.ts'

type Running = {
  child: ChildProcess
  said: string[]
  ended: Promise<void>
  says(word: string): Promise<void>
}

function start(program: string, ...args: string[]): Running {
  const child = spawn(process.execPath, [program, ...args])
  const said: string[] = []
  let rest = ''
  const waiting: { word: string; done: () => void }[] = []
  child.stdout.on('data', (chunk: Buffer) => {
    const lines = `${rest}${chunk.toString()}`.split('\n')
    rest = lines.pop()!
    said.push(...lines)
    for (const { word, done } of waiting) if (said.includes(word)) done()
  })
  child.stderr.on('data', (chunk: Buffer) => said.push(`error: ${chunk.toString()}`))
  return {
    child,
    said,
    ended: new Promise((done) => child.on('close', () => done())),
    says: (word) => new Promise((done) => (said.includes(word) ? done() : void waiting.push({ word, done }))),
  }
}

async function stationWithMember(): Promise<string> {
  const folder = await freshStation()
  const session = await sessionOf(store, folder)
  await session.submit({ do: 'add-member', by: 'setup', member: { id: 'M-104', name: 'A. Varga' } })
  await session.close()
  return folder
}

/** `programs` at once with `count` events each. */
export async function together(
  program: string,
  programs: number,
  count: number,
): Promise<string | undefined> {
  const folder = await stationWithMember()
  const running = Array.from({ length: programs }, (_, n) =>
    start(program, folder, 'notes', `P${n}`, `${count}`),
  )
  await Promise.all(running.map(({ ended }) => ended))
  const accepted = running.flatMap(({ said }) => said)
  const odd = accepted.find((each) => !each.startsWith('accepted '))
  if (odd !== undefined) return `a program said: ${odd}`
  if (new Set(accepted).size !== programs * count) return 'an event was accepted twice, or not at all'
  const verified = store.verifyJournal(folder)
  if (verified.kind !== 'verified' || verified.faults.length)
    return `it does not verify: ${JSON.stringify(verified)}`
  const texts = readFileSync(join(folder, 'journal.jsonl'), 'utf8').match(/"text":"P\d+ \d+"/g) ?? []
  rmSync(folder, { recursive: true })
  return new Set(texts).size === programs * count && texts.length === programs * count
    ? undefined
    : `${texts.length} events are there of ${programs * count}`
}

/** One is stopped with the lock in hand until it is stale; another takes over; then the first goes on. */
export async function stoppedHolder(program: string): Promise<string | undefined> {
  const folder = await stationWithMember()
  const holder = start(program, folder, 'slowly', 'from the one that was stopped')
  await holder.says('inside')
  holder.child.kill('SIGSTOP')
  ageLock(folder)
  const other = start(program, folder, 'notes', 'P1', '2')
  await other.ended
  holder.child.kill('SIGCONT')
  await holder.ended
  const verified = store.verifyJournal(folder)
  if (other.said.join() !== 'accepted 3,accepted 4')
    return `the one that took over said: ${other.said.join()}`
  if (!['behind', 'lock-lost'].includes(holder.said[1] ?? ''))
    return `the one that was stopped said: ${holder.said[1]}`
  rmSync(folder, { recursive: true })
  return verified.kind === 'verified' && verified.lines === 4 && !verified.faults.length
    ? undefined
    : `it does not verify: ${JSON.stringify(verified)}`
}

/** One dies with the lock in hand; the next waits until it is stale, and no longer. */
export async function deadHolder(program: string): Promise<string | undefined> {
  const folder = await stationWithMember()
  const holder = start(program, folder, 'slowly', 'never')
  await holder.says('inside')
  holder.child.kill('SIGKILL')
  await holder.ended
  ageLock(folder)
  const next = start(program, folder, 'notes', 'P1', '1')
  await next.ended
  rmSync(folder, { recursive: true })
  return next.said.join() === 'accepted 3' ? undefined : `the next said: ${next.said.join()}`
}
