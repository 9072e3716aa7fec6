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
const parts = [Buffer.from(JSON.stringify(facts)), Buffer.from('{"far":1}'), Buffer.from('{"far":2}')]
const written = async (folder = newFolder()) => {
  expect(await writeSnapshot(folder, '0.1.0', position, parts)).toEqual({ ok: true })
  return folder
}
const found = async (folder: string) => {
  const snapshot = await readSnapshot(folder, '0.1.0')
  if (!snapshot) return undefined
  const { position, state } = snapshot
  const read = Array.from({ length: state.length }, (_, part) => state.at(part))
  state.close()
  return { position, parts: read }
}
const pathOf = (folder: string) => join(folder, 'snapshot.json')

describe('a snapshot', () => {
  it('gives back the state and its position to the version that wrote it', async () => {
    const folder = await written()
    expect(await found(folder)).toEqual({ position, parts })
    expect(JSON.parse(readFileSync(pathOf(folder), 'utf8'))).toEqual({
      format: 2,
      version: '0.1.0',
      ...position,
      journal: null,
      parts: parts.map((each) => ({ size: each.length, sum: sha256(each) })),
      state: [facts, { far: 1 }, { far: 2 }],
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
    ['another format', '"format":2', '"format":1'],
    ['a changed state', '"count":3', '"count":4'],
    ['a changed sum', '"sum":"', '"sum":"0'],
    ['another size', '"size":', '"size":1'],
    ['a size beyond all files', '"size":', '"size":99999999'],
    ['no parts', '"parts":[{', '"parts":[],"more":[{'],
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

describe('a part that is read later', () => {
  it('is not believed once it has changed, and the others are', async () => {
    const folder = await written()
    const text = readFileSync(pathOf(folder), 'utf8')
    writeFileSync(pathOf(folder), text.replace('{"far":1}', '{"far":7}'))
    expect(await found(folder)).toEqual({ position, parts: [parts[0], undefined, parts[2]] })
  })

  it('is of the snapshot that was opened, whatever has taken its name since', async () => {
    const folder = await written()
    const { state } = (await readSnapshot(folder, '0.1.0'))!
    await writeSnapshot(folder, '0.1.0', position, [Buffer.from('{}'), Buffer.from('{"far":8}')])
    expect(state.at(1)).toEqual(parts[1])
    state.close()
    expect(state.at(2)).toBeUndefined()
  })

  it('is not to be had where the disk fails, and says nothing', async () => {
    const folder = await written()
    const { files } = failingFiles({ call: 'read', code: 'EIO', nth: 3 })
    const { state } = (await readSnapshot(folder, '0.1.0', files))!
    expect([state.at(1), state.at(0)]).toEqual([undefined, parts[0]])
    state.close()
  })
})

describe('keeping a snapshot', () => {
  it('syncs the new file before it takes the name, and the name after', async () => {
    const { files, calls } = failingFiles()
    await writeSnapshot(newFolder(), '0.1.0', position, [Buffer.from('{}')], files)
    // First it looks for the journal that it stands for; here there is none.
    expect(calls).toEqual(['open', 'open', 'write', 'fdatasync', 'close', 'rename', 'syncFolder'])
  })

  it.each(['open', 'write', 'fdatasync', 'rename'] as const)(
    'that fails at %s says why, leaves the old one and no litter',
    async (call) => {
      const folder = await written()
      const { files } = failingFiles({ call, code: 'ENOSPC' })
      expect(
        await writeSnapshot(folder, '0.1.0', { ...position, seq: 13 }, [Buffer.from('{}')], files),
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
    expect(await writeSnapshot(folder, '0.1.0', position, [Buffer.from('{}')], files)).toMatchObject({
      ok: false,
    })
    expect(await found(folder)).toEqual({ position, parts })
  })
})
