// That a snapshot is believed only when everything about it checks, and that keeping one never harms its caller.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { sha256 } from '../../src/store/line.ts'
import { readSnapshot, writeSnapshot } from '../../src/store/snapshot.ts'
import { failingFiles } from './failing-files.ts'
import { newFolder } from './station-folder.ts'

const position = { seq: 12, hash: 'ab'.repeat(32), offset: 4711 }
const facts = { members: { 'M-104': { name: 'Invented Name, "state": é' } }, count: 3 }
const state = Buffer.from(JSON.stringify(facts))
const written = async (folder = newFolder()) => {
  expect(await writeSnapshot(folder, '0.1.0', position, state)).toEqual({ ok: true })
  return folder
}
const pathOf = (folder: string) => join(folder, 'snapshot.json')

describe('a snapshot', () => {
  it('gives back the state and its position to the version that wrote it', async () => {
    const folder = await written()
    expect(await readSnapshot(folder, '0.1.0')).toEqual({ position, state })
    expect(JSON.parse(readFileSync(pathOf(folder), 'utf8'))).toEqual({
      format: 1,
      version: '0.1.0',
      ...position,
      journal: null,
      sum: sha256(state),
      state: facts,
    })
    expect(readdirSync(folder)).toEqual(['snapshot.json'])
  })

  it('of another version, or none, is not believed', async () => {
    expect(await readSnapshot(await written(), '0.2.0')).toBeUndefined()
    expect(await readSnapshot(newFolder(), '0.1.0')).toBeUndefined()
    const folder = newFolder()
    mkdirSync(pathOf(folder))
    expect(await readSnapshot(folder, '0.1.0')).toBeUndefined()
  })

  it('cut at any byte is not believed', async () => {
    const folder = await written()
    const whole = readFileSync(pathOf(folder))
    for (let size = 0; size < whole.length; size++) {
      writeFileSync(pathOf(folder), whole.subarray(0, size))
      expect(await readSnapshot(folder, '0.1.0'), `${size} bytes`).toBeUndefined()
    }
  })

  it.each([
    ['another format', '"format":1', '"format":2'],
    ['a changed state', '"count":3', '"count":4'],
    ['a changed sum', '"sum":"', '"sum":"0'],
    ['a seq that is no number', '"seq":12', '"seq":"12"'],
    ['a negative offset', '"offset":4711', '"offset":-1'],
    ['a short hash', '"hash":"ab', '"hash":"'],
    ['an unknown member', '"seq":12', '"seq":12,"more":1'],
  ])('with %s is not believed', async (_, from, to) => {
    const folder = await written()
    const text = readFileSync(pathOf(folder), 'utf8')
    expect(text).toContain(from)
    writeFileSync(pathOf(folder), text.replace(from, to))
    expect(await readSnapshot(folder, '0.1.0')).toBeUndefined()
  })
})

describe('keeping a snapshot', () => {
  it('syncs the new file before it takes the name, and the name after', async () => {
    const { files, calls } = failingFiles()
    await writeSnapshot(newFolder(), '0.1.0', position, Buffer.from('{}'), files)
    // First it looks for the journal that it stands for; here there is none.
    expect(calls).toEqual(['open', 'open', 'write', 'fdatasync', 'close', 'rename', 'syncFolder'])
  })

  it.each(['open', 'write', 'fdatasync', 'rename'] as const)(
    'that fails at %s says why, leaves the old one and no litter',
    async (call) => {
      const folder = await written()
      const { files } = failingFiles({ call, code: 'ENOSPC' })
      expect(
        await writeSnapshot(folder, '0.1.0', { ...position, seq: 13 }, Buffer.from('{}'), files),
      ).toMatchObject({
        ok: false,
        sentence: expect.stringContaining('the disk is full (ENOSPC)'),
      })
      expect((await readSnapshot(folder, '0.1.0'))?.position.seq).toBe(12)
      expect(readdirSync(folder)).toEqual(['snapshot.json'])
    },
  )

  it('that is written short leaves the old one', async () => {
    const folder = await written()
    const { files } = failingFiles({ call: 'write', short: 5 })
    expect(await writeSnapshot(folder, '0.1.0', position, Buffer.from('{}'), files)).toMatchObject({
      ok: false,
    })
    expect(await readSnapshot(folder, '0.1.0')).toEqual({ position, state })
  })
})
