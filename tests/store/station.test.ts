// A station's folder: opening it, and a journal that this program does not understand.
import { cpSync, existsSync, readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { formatLine, ZEROS } from '../../src/store/line.ts'
import { openStation, readEvents } from '../../src/store/station.ts'
import { FACTS, MADE_AT, member, newStation, note, recorded, sessionIn } from './kept-station.ts'
import { bytesIn, newFolder, pathIn, put } from './station-folder.ts'

describe('a journal of a newer format', () => {
  it('is opened for reading only, says so, and nothing in the folder changes', async () => {
    const folder = newFolder()
    const draft = { at: MADE_AT, by: 'setup', type: 'station-made', data: { ...FACTS, format: 2 } }
    const first = formatLine(draft, 1, ZEROS)
    const second = formatLine(
      { at: MADE_AT, by: 'setup', type: 'member-added', data: { member: { id: 'M-104', name: 'A' } } },
      2,
      first.hash,
    )
    put(folder, `${first.line}\n${second.line}\n`)
    const copy = newFolder()
    cpSync(folder, copy, { recursive: true })
    const session = await sessionIn(folder)
    expect(session.stopped).toMatch(/^This station's journal has format 2; this program knows format 1\./)
    expect(session.state.members.has('M-104')).toBe(true)
    expect(await session.submit(note('no'))).toEqual({ failed: session.stopped })
    await session.close()
    expect(readdirSync(folder)).toEqual(readdirSync(copy))
    expect(bytesIn(folder)).toEqual(readFileSync(pathIn(copy)))
  })
})

it('reading events of a damaged journal gives what is sound and the sentence', async () => {
  const folder = await newStation()
  await recorded(await sessionIn(folder), member('M-104'), note('changed'), note('after'))
  put(folder, bytesIn(folder).toString().replace('"changed"', '"CHANGED"'))
  const types: string[] = []
  expect(readEvents(folder, ({ type }) => types.push(type))).toEqual({
    stopped: expect.stringContaining('The journal is damaged at line 3 '),
  })
  expect(types).toEqual(['station-made', 'member-added'])
})

it('there is no station in an empty folder, and opening makes none', async () => {
  const folder = newFolder()
  expect(await openStation(folder)).toMatchObject({ why: 'none' })
  expect(existsSync(pathIn(folder))).toBe(false)
})

describe('an event that this program does not know', () => {
  const appendLine = (folder: string, type: string, data: object): void => {
    const lines = bytesIn(folder).toString().trimEnd().split('\n')
    const prev = (JSON.parse(lines.at(-1)!) as { hash: string }).hash
    const { line } = formatLine({ at: MADE_AT, by: 'M-104', type, data }, lines.length + 1, prev)
    put(folder, `${lines.join('\n')}\n${line}\n`)
  }

  it.each([
    ['of another name', 'element-recalled', { element: 'C-1041' }, 'does not know (element-recalled)'],
    ['without its data', 'seat-answered', { seat: 'E6-1' }, 'cannot read (seat-answered)'],
  ])(
    '%s opens the station for reading only: it may say that gear must not be worn',
    async (_, type, data, words) => {
      const folder = await newStation()
      appendLine(folder, type, data)
      const before = bytesIn(folder)
      const session = await sessionIn(folder)
      expect(session.stopped).toContain(words)
      expect(session.state.station).not.toBeNull()
      expect(await session.submit(member('M-104'))).toEqual({ failed: session.stopped })
      expect(bytesIn(folder)).toEqual(before)
    },
  )
})
