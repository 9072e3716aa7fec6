// That the lock a session keeps for a moment is given back, is noticed when it is lost, and is kept from nobody who waits.
import { spawnSync } from 'node:child_process'
import { mkdirSync, readdirSync, rmSync, utimesSync } from 'node:fs'
import { join } from 'node:path'
import { build } from 'esbuild'
import { describe, expect, it } from 'vitest'
import { keptLock } from '../../src/store/kept-lock.ts'
import { LOCK_NAME, withLock, type Held } from '../../src/store/lock.ts'
import { newFolder } from './station-folder.ts'

const isLost = (held: Held): boolean => held.isLost()
const isFree = async (folder: string): Promise<boolean> => {
  for (let tries = 0; tries < 200 && readdirSync(folder).length; tries++)
    await new Promise((resolve) => setTimeout(resolve, 10))
  return readdirSync(folder).length === 0
}

describe('the lock of a session', () => {
  it('serves act after act, and is given back when none follows', async () => {
    const folder = newFolder()
    const lock = keptLock(folder)
    const seen: Held[] = []
    for (let act = 0; act < 3; act++) {
      expect(await lock.alone((held) => (seen.push(held), held.isLost()))).toEqual({ ok: true, value: false })
      // What one act was allowed is not the next one's.
      expect(seen.map(isLost)).toEqual(seen.map(() => true))
      expect(readdirSync(folder)).toEqual([LOCK_NAME])
    }
    expect(await isFree(folder)).toBe(true)
  })

  it('is given back at once when the work throws, and when the session is closed', async () => {
    const folder = newFolder()
    const lock = keptLock(folder)
    const thrown = lock.alone(() => {
      throw new Error('a mistake in the work')
    })
    await expect(thrown).rejects.toThrow('a mistake in the work')
    expect(readdirSync(folder)).toEqual([])
    await lock.alone(isLost)
    lock.giveBack()
    expect(readdirSync(folder)).toEqual([])
  })

  it.each([
    ['that ends without closing anything', 'process.exit(0)', { status: 0, signal: null }],
    ['that is ended by Ctrl-C', "process.kill(process.pid, 'SIGINT')", { status: null, signal: 'SIGINT' }],
    ['whose terminal goes away', "process.kill(process.pid, 'SIGHUP')", { status: null, signal: 'SIGHUP' }],
  ])('is given back by a program %s, so that the next need not wait', async (_, ending, ended) => {
    const folder = newFolder()
    const program = join(newFolder(), 'ends.cjs')
    await build({
      stdin: {
        contents: `import { keptLock } from './src/store/kept-lock.ts'
          import { readdirSync } from 'node:fs'
          keptLock(process.argv[2]).alone(() => undefined).then(() => {
            console.log(readdirSync(process.argv[2]).join())
            ${ending}
          })`,
        resolveDir: process.cwd(),
      },
      outfile: program,
      bundle: true,
      platform: 'node',
      format: 'cjs',
      target: 'node20',
    })
    const ran = spawnSync(process.execPath, [program, folder], { encoding: 'utf8' })
    expect(ran).toMatchObject({ ...ended, stdout: `${LOCK_NAME}\n` })
    expect(readdirSync(folder)).toEqual([])
  })

  it('that another took over while this program was stopped is lost, the other’s is left alone, and it waits its turn', async () => {
    const folder = newFolder()
    const path = join(folder, LOCK_NAME)
    const takeOver = (): void => {
      rmSync(path, { recursive: true })
      mkdirSync(path)
      utimesSync(path, new Date(), new Date(Date.now() + 5))
    }
    const lock = keptLock(folder)
    const during = await lock.alone((held) => (takeOver(), held.isLost()))
    expect(during).toEqual({ ok: true, value: true })
    lock.giveBack()
    expect(readdirSync(folder)).toEqual([LOCK_NAME])
    rmSync(path, { recursive: true })
    await lock.alone(isLost)
    takeOver()
    let begun = false
    const next = lock.alone((held) => ((begun = true), held.isLost()))
    await new Promise((resolve) => setTimeout(resolve, 30))
    expect(begun).toBe(false)
    rmSync(path, { recursive: true })
    expect(await next).toEqual({ ok: true, value: false })
  })

  it('is had by another program in the middle of a long run of acts', async () => {
    const folder = newFolder()
    const lock = keptLock(folder)
    const order: string[] = []
    const other = withLock(folder, () => order.push('other'))
    while (!order.includes('other') || order.at(-1) === 'other') {
      const had = await lock.alone(() => order.push('own'))
      if (!had.ok) throw new Error(had.sentence)
    }
    expect(await other).toMatchObject({ ok: true })
    lock.giveBack()
    expect(await isFree(folder)).toBe(true)
  }, 30_000)
})
