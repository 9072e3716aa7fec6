// Making a station: one first event, never over another station, and whole even where an earlier making was cut short.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { makeStation, openStation, readEvents } from '../../src/store/station.ts'
import { FACTS, MADE_AT, newStation, sessionIn } from './kept-station.ts'
import { bytesIn, newFolder, put } from './station-folder.ts'

describe('making a station', () => {
  it('writes one first event, with the facts of the station', async () => {
    const folder = await newStation()
    const events: object[] = []
    expect(readEvents(folder, (event) => events.push(event))).toEqual({})
    expect(events).toMatchObject([{ seq: 1, at: MADE_AT, by: 'setup', type: 'station-made', data: FACTS }])
  })

  it('refuses a folder that holds one and changes nothing in it', async () => {
    const folder = await newStation()
    const before = readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'utf8')])
    expect(await makeStation(folder, { ...FACTS, name: 'Other' }, MADE_AT)).toEqual({
      why: 'taken',
      sentence: `There is already a station in ${folder}. Nothing was changed. Name another folder.`,
    })
    expect(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'utf8')])).toEqual(
      before,
    )
  })

  it('goes on where an earlier making was cut short, and keeps what that had written', async () => {
    const whole = bytesIn(await newStation())
    for (const size of [0, 1, 100, whole.length - 2]) {
      const folder = newFolder()
      put(folder, whole.subarray(0, size))
      expect(await openStation(folder)).toMatchObject({ why: 'none' })
      expect(await makeStation(folder, FACTS, MADE_AT)).toBeUndefined()
      expect((await sessionIn(folder)).state.station?.name).toBe('Larch Hill')
      const aside = readdirSync(folder).filter((name) => name.startsWith('journal.torn-'))
      expect(aside.map((name) => readFileSync(join(folder, name)))).toEqual(
        size ? [whole.subarray(0, size)] : [],
      )
    }
  })

  it('says why where it cannot, and that is no station either', async () => {
    const folder = newFolder()
    writeFileSync(join(folder, 'file'), '')
    const inside = join(folder, 'file', 'station')
    expect(await makeStation(inside, FACTS, MADE_AT)).toEqual({
      why: 'trouble',
      sentence: `A station cannot be made in ${inside}: part of the path is not a folder (ENOTDIR). Put that right or name another folder.`,
    })
    expect(await openStation(inside)).toMatchObject({ why: 'trouble' })
  })
})
