// That the lock lets one writer in at a time, shown with real processes.
import { spawn } from 'node:child_process'
import { mkdirSync, readdirSync, rmSync, utimesSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { LOCK_NAME, withLock, type Held } from '../../src/store/lock.ts'
import { verifyJournal } from '../../src/store/verify.ts'
import { buildInto } from '../reliability/build.ts'
import { draft, madeJournal, newFolder, readBack } from './station-folder.ts'

let program: string
beforeAll(async () => {
  program = await buildInto(newFolder(), 'tests/store/append-child.ts')
})

type Ended = { said: string[]; complaint: string; signal: NodeJS.Signals | null; code: number | null }

const run = (...args: string[]): Promise<Ended> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, ...args])
    let out = ''
    let complaint = ''
    child.stdout.on('data', (chunk: Buffer) => (out += chunk.toString()))
    child.stderr.on('data', (chunk: Buffer) => (complaint += chunk.toString()))
    child.on('error', reject)
    child.on('close', (code, signal) => resolve({ said: out.trimEnd().split('\n'), complaint, signal, code }))
  })

describe('several programs writing to one station', () => {
  it.each([
    [2, 100],
    [8, 20],
  ])(
    '%i at once with %i events each lose none and break no link',
    async (programs, count) => {
      const folder = newFolder()
      madeJournal(folder, [draft('made')]).close()
      const names = Array.from({ length: programs }, (_, i) => `P${i + 1}`)
      const ended = await Promise.all(names.map((name) => run(folder, name, String(count))))
      expect(ended.map(({ code, complaint }) => [code, complaint])).toEqual(names.map(() => [0, '']))
      const expected = names.flatMap((name) => Array.from({ length: count }, (_, i) => `${name} ${i + 1}`))
      expect(ended.flatMap(({ said }) => said)).toEqual(expected)
      expect(readBack(folder).texts.slice(1).toSorted()).toEqual(expected.toSorted())
      expect(verifyJournal(folder)).toMatchObject({ lines: programs * count + 1, faults: [] })
      expect(readdirSync(folder)).toEqual(['journal.jsonl'])
    },
    60_000,
  )

  it('go on after one was killed while it held the lock, once the lock is stale', async () => {
    const folder = newFolder()
    madeJournal(folder, [draft('made')]).close()
    expect(await run(folder, 'P1', '1', 'die-holding-the-lock')).toMatchObject({
      signal: 'SIGKILL',
      said: ['P1 1'],
    })
    expect(readdirSync(folder)).toContain(LOCK_NAME)
    const longAgo = new Date(Date.now() - 11_000)
    utimesSync(join(folder, LOCK_NAME), longAgo, longAgo)
    expect(await run(folder, 'P2', '1')).toMatchObject({ code: 0, said: ['P2 1'] })
    expect(readBack(folder).texts).toEqual(['made', 'P1 1', 'P2 1'])
  }, 60_000)
})

describe('the lock', () => {
  it('that another holds is refused with what to do, and the work is not begun', async () => {
    const folder = newFolder()
    mkdirSync(join(folder, LOCK_NAME))
    let begun = false
    const locked = await withLock(folder, () => (begun = true), 30)
    expect(locked).toMatchObject({ ok: false, why: 'busy' })
    expect(locked.ok ? '' : locked.sentence).toContain('Another program is writing to this station')
    expect(begun).toBe(false)
  })

  it('in a folder that is not there is refused at once as not writable', async () => {
    expect(await withLock(join(newFolder(), 'nothing'), () => 1)).toMatchObject({
      ok: false,
      why: 'unwritable',
    })
  })

  it('is given back when the work throws, and is held no longer after it', async () => {
    const folder = newFolder()
    const kept: Held[] = []
    await expect(
      withLock(folder, (held) => {
        kept.push(held)
        throw new Error('a mistake in the work')
      }),
    ).rejects.toThrow('a mistake in the work')
    expect(readdirSync(folder)).toEqual([])
    expect(kept.map((held) => held.isLost())).toEqual([true])
    expect(await withLock(folder, (held) => held.isLost())).toEqual({ ok: true, value: false })
  })

  it('taken away while it is held is noticed and ends nothing', async () => {
    const folder = newFolder()
    const locked = await withLock(folder, async (held) => {
      rmSync(join(folder, LOCK_NAME), { recursive: true })
      // The lock looks after itself every two seconds.
      for (let i = 0; i < 100 && !held.isLost(); i++) await new Promise((resolve) => setTimeout(resolve, 100))
      return held.isLost()
    })
    expect(locked).toEqual({ ok: true, value: true })
  }, 20_000)
})
