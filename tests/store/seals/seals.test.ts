// What a seal notices: each kind of attacker on a sealed journal, and exactly what is said of it and from which line on.
import { chmodSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { formatLine, ZEROS, type Entry } from '../../../src/store/line.ts'
import { checkJournal, type Checked, type CheckOptions } from '../../../src/store/seals/check-seals.ts'
import { newestSeal } from '../../../src/store/seals/seal.ts'
import { failingFiles } from '../failing-files.ts'
import { clockAt, entriesIn, member, newStation, note, recorded, sessionIn } from '../kept-station.ts'
import { bytesIn, newFolder, put } from '../station-folder.ts'
import type { Command } from '../../../src/domain/commands.ts'

const by = 'M-104'
const opens = (tour: string): Command => ({
  do: 'open-tour',
  by,
  tour,
  platoon: 'B',
  officer: by,
  on: '2026-11-24',
})
const handsOver: Command = { do: 'hand-over', by, to: 'M-207' }

/** Two tours handed over: lines 1 to 3 set up, 4 to 6 the tour T-1, 7 to 9 the tour T-2, 10 after it. */
async function sealedStation(): Promise<string> {
  const folder = await newStation()
  const session = await sessionIn(folder)
  await recorded(session, member('M-104'), member('M-207'))
  for (const tour of ['T-1', 'T-2']) await recorded(session, opens(tour), note(`in ${tour}`), handsOver)
  await recorded(session, note('after'))
  await session.close()
  return folder
}

const checked = (folder: string, options: CheckOptions = {}): Checked => {
  const result = checkJournal(folder, options)
  if (result.kind !== 'verified') throw new Error(result.kind)
  return result
}
const sealOf = (folder: string, tour: string): string => newestSeal(folder, tour)!.text
const against = (folder: string, text: string, key?: string) =>
  checked(folder, { against: [{ name: 'kept', text }], ...(key !== undefined && { key }) }).against[0]!

/** Somebody who can write the file and hash it all again, from a changed entry on. */
function rewrite(folder: string, change: (entries: Entry[]) => Entry[]): void {
  const entries = bytesIn(folder)
    .toString()
    .trimEnd()
    .split('\n')
    .map((line): Entry => JSON.parse(line))
  let prev = ZEROS
  const lines = change(entries).map((entry, index) => {
    const { line, hash } = formatLine(entry, index + 1, prev)
    prev = hash
    return line
  })
  put(folder, `${lines.join('\n')}\n`)
}
const withText = (seq: number, text: string) => (entries: Entry[]) =>
  entries.map((each) => (each.seq === seq ? { ...each, data: { text } } : each))

let folder = ''
beforeAll(async () => {
  folder = await sealedStation()
})
const copy = (): string => {
  const other = newFolder()
  put(other, bytesIn(folder))
  mkdirSync(join(other, 'seals'))
  for (const name of readdirSync(join(folder, 'seals'))) {
    writeFileSync(join(other, 'seals', name), readFileSync(join(folder, 'seals', name)))
  }
  return other
}

describe('a hand-over', () => {
  it('is sealed over the line that says so; the first one brings the key, and its private half is its owner’s alone', () => {
    const [first, second] = entriesIn(folder).filter((each) => each.type === 'tour-handed-over')
    const key = String(first!.data['sealKey'])
    expect(second!.data['sealKey']).toBeUndefined()
    expect(readdirSync(join(folder, 'seals'))).toEqual(['T-1.note', 'T-2.note'])
    const [origin, count, head, tour, at] = sealOf(folder, 'T-2').split('\n')
    expect([count, head, tour, at]).toEqual([
      '9',
      (entriesIn(folder)[8] as unknown as Entry).hash,
      'tour T-2',
      'sealed 2026-11-24T07:00:00.000-05:00',
    ])
    expect(origin).toMatch(/^bayboard\/larch-hill-[0-9a-f]{16}$/)
    expect(key.startsWith(`${origin}+`)).toBe(true)
    const [file] = readdirSync(join(folder, 'keys'))
    expect(file).toBe(`${key.split('+')[1]}.pem`)
    expect(statSync(join(folder, 'keys', file!)).mode & 0o777).toBe(0o600)
  })

  it('stands when it cannot be sealed, which is said; the seal can be made later', async () => {
    const other = await newStation()
    await recorded(await sessionIn(other), member('M-104'), member('M-207'), opens('T-1'))
    // The first rename that a hand-over needs is that of the key, the second that of the seal.
    const { files } = failingFiles({ call: 'rename', code: 'ENOSPC', nth: 2 })
    const session = await sessionIn(other, clockAt(), files)
    expect(await session.submit(handsOver)).toEqual({
      accepted: [5],
      seal: { failed: expect.stringContaining('was not kept: the disk is full (ENOSPC)') },
    })
    expect(session.stopped).toBeUndefined()
    expect(await session.submit(note('goes on'))).toEqual({ accepted: [6] })
    expect(checked(other)).toMatchObject({ faults: [], seals: [], unsealed: ['T-1'] })
    expect(readdirSync(join(other, 'seals'))).toEqual([])
  })

  it.each([
    ['.A', '_A', ['_A.note', '_A~26f5ad23.note']],
    ['_A', '.A', ['_A.note', '_A~06553e98.note']],
  ])(
    'of %s and one of %s, which would share a name of a file, have a seal each',
    async (one, other, names) => {
      const folder = await newStation()
      const session = await sessionIn(folder)
      await recorded(session, member('M-104'), member('M-207'), opens(one), handsOver)
      const first = sealOf(folder, one)
      await recorded(session, opens(other))
      expect(newestSeal(folder, other)).toBeUndefined()
      expect(await session.submit(handsOver)).toMatchObject({
        seal: { path: join(folder, 'seals', names[1]!) },
      })
      expect(readdirSync(join(folder, 'seals')).toSorted()).toEqual(names)
      expect(sealOf(folder, one)).toBe(first)
      expect(sealOf(folder, other)).toContain(`\ntour ${other}\n`)
      expect(checked(folder)).toMatchObject({ unsealed: [], seals: [{ holds: true }, { holds: true }] })
    },
  )

  it('stands when no key can be made', async () => {
    const other = await newStation()
    writeFileSync(join(other, 'keys'), 'in the way')
    const session = await sessionIn(other)
    await recorded(session, member('M-104'), member('M-207'), opens('T-1'))
    expect(await session.submit(handsOver)).toEqual({
      accepted: [5],
      seal: { failed: expect.stringContaining('A key for the seals cannot be made') },
    })
    expect(session.state.sealKey).toBeNull()
  })

  it('stands when the key is lost, and says how to go on', async () => {
    const other = await sealedStation()
    rmSync(join(other, 'keys'), { recursive: true })
    const session = await sessionIn(other)
    await recorded(session, opens('T-3'))
    expect(await session.submit(handsOver)).toMatchObject({
      accepted: [12],
      seal: { failed: expect.stringMatching(/private half .* is not in the folder keys.*key make/) },
    })
  })
})

describe('against a seal, a journal', () => {
  it('as it was holds, however much was added after', () => {
    expect(against(folder, sealOf(folder, 'T-2'))).toMatchObject({ holds: true, lines: 9, tour: 'T-2' })
    expect(checked(folder)).toMatchObject({ faults: [], unsealed: [] })
    expect(checked(folder).seals.map(({ holds }) => holds)).toEqual([true, true])
  })

  it('cut at every line boundary before it is shortened, with the lines that are missing', () => {
    const lines = bytesIn(folder).toString().trimEnd().split('\n')
    for (let left = 7; left < 9; left++) {
      const other = copy()
      put(other, `${lines.slice(0, left).join('\n')}\n`)
      const missing = left === 8 ? 'Line 9 is' : 'Lines 8 to 9 are'
      expect(checked(other).faults).toEqual([])
      expect(against(other, sealOf(folder, 'T-2'))).toMatchObject({
        holds: false,
        from: left + 1,
        what: `It was made over 9 lines and the journal has ${left}: it was shortened. ${missing} missing.`,
      })
    }
  })

  it('hashed again from a changed line on is written anew, from the line after the last seal that still holds', () => {
    const other = copy()
    rewrite(other, withText(8, 'never happened'))
    expect(checked(other)).toMatchObject({ faults: [] })
    expect(against(other, sealOf(folder, 'T-2'))).toMatchObject({
      holds: false,
      from: 7,
      what: 'Line 9 is not the line it was made over: the journal was written anew, from line 7 or later on.',
    })
    expect(checked(other).seals.map(({ holds }) => holds)).toEqual([true, false])
  })

  it('with a line taken out and hashed again is written anew', () => {
    const other = copy()
    rewrite(other, (entries) => entries.filter(({ seq }) => seq !== 5))
    expect(checked(other)).toMatchObject({ faults: [] })
    expect(against(other, sealOf(folder, 'T-2'))).toMatchObject({ holds: false, from: 1 })
  })

  it('changed after the seal only is not seen by it: it speaks for the lines before it', () => {
    const other = copy()
    rewrite(other, withText(10, 'something else'))
    expect(against(other, sealOf(folder, 'T-2'))).toMatchObject({ holds: true })
  })

  it('of another station is told by its name', async () => {
    const other = await sealedStation()
    rewrite(other, (entries) =>
      entries.map((each) => (each.seq === 1 ? { ...each, at: '2025-01-01T06:00:00.000-05:00' } : each)),
    )
    expect(against(other, sealOf(folder, 'T-1'))).toMatchObject({
      holds: false,
      from: 1,
      what: expect.stringContaining('It is a seal of another station or of another first line'),
    })
  })

  it('whose attacker has a key of their own and sealed it all again is told by the key that is known from elsewhere', async () => {
    const theirs = await sealedStation()
    const known = String(entriesIn(folder)[5]!.data['sealKey'])
    // Within itself it is whole: journal, key and seals agree.
    expect(checked(theirs).seals.every(({ holds }) => holds)).toBe(true)
    expect(checked(theirs, { key: known }).seals.map(({ what }) => what)).toEqual([
      'Its length and hash agree with the journal. It is signed by a key other than the one given.',
      'Its length and hash agree with the journal. It is signed by a key other than the one given.',
    ])
    // And the true seal, kept elsewhere, is of a key that this journal has never heard of.
    expect(against(theirs, sealOf(folder, 'T-2'))).toMatchObject({
      holds: false,
      what: expect.stringMatching(/written anew.* signed by a key that this journal does not know\.$/),
    })
  })

  it.each([
    ['a changed length', (seal: string) => seal.replace('\n9\n', '\n8\n')],
    ['another tour', (seal: string) => seal.replace('tour T-2', 'tour T-1')],
    ['another instant', (seal: string) => seal.replace('sealed 2026', 'sealed 2025')],
    ['a line more', (seal: string) => seal.replace('\n\n', '\nmore\n\n')],
  ])('a note with %s was altered', (_, change) => {
    expect(change(sealOf(folder, 'T-2'))).not.toBe(sealOf(folder, 'T-2'))
    expect(against(folder, change(sealOf(folder, 'T-2')))).toMatchObject({
      holds: false,
      what: 'It was altered after it was signed: the signature is not of this text.',
    })
  })

  it.each(['', 'hello\n', '\u0000', '{"journal":{}}'])('%j is no signed note', (text) => {
    expect(against(folder, text).what).toBe('It is not a signed note: it was cut, altered or never one.')
  })

  it('a seal cut at any byte never holds', () => {
    const seal = Buffer.from(sealOf(folder, 'T-2'))
    for (let size = 0; size < seal.length; size++) {
      expect(against(folder, seal.subarray(0, size).toString()).holds).toBe(false)
    }
  })

  it('a seal with any bit changed never holds', () => {
    const seal = Buffer.from(sealOf(folder, 'T-2'))
    const noted = seal.map((byte) => byte)
    const texts: string[] = []
    for (let bit = 0; bit < seal.length * 8; bit += 3) {
      noted.set(seal)
      noted[bit >> 3]! ^= 1 << (bit & 7)
      texts.push(Buffer.from(noted).toString('utf8'))
    }
    const { against: all } = checked(folder, { against: texts.map((text) => ({ name: 'kept', text })) })
    expect(all.filter(({ holds }) => holds)).toEqual([])
  })
})

describe('another key', () => {
  it('is vouched for by the one it replaces, and a key known from elsewhere reaches it by that word', async () => {
    const other = await sealedStation()
    const session = await sessionIn(other)
    const known = session.state.sealKey!
    expect(await session.makeKey('M-104', 'a new machine')).toEqual({ accepted: [11] })
    await recorded(session, opens('T-3'), handsOver)
    const { seals, keys } = checked(other, { key: known })
    expect(seals.map(({ tour, holds }) => [tour, holds])).toEqual([
      ['T-1', true],
      ['T-2', true],
      ['T-3', true],
    ])
    expect(keys.map(({ line, isVouched }) => [line, isVouched])).toEqual([
      [6, false],
      [11, true],
    ])
  })

  it('made after the old one was lost is not vouched for, and only the journal’s own word stands for it', async () => {
    const other = await sealedStation()
    rmSync(join(other, 'keys'), { recursive: true })
    const session = await sessionIn(other)
    const known = session.state.sealKey!
    await session.makeKey('M-104', 'the folder keys was lost')
    await recorded(session, opens('T-3'), handsOver)
    expect(checked(other).seals.map(({ holds }) => holds)).toEqual([true, true, true])
    expect(checked(other, { key: known }).seals.map(({ holds }) => holds)).toEqual([true, true, false])
  })

  it('is refused to somebody unknown', async () => {
    const other = await sealedStation()
    const session = await sessionIn(other)
    expect(await session.makeKey('M-999', '')).toEqual({
      refused: 'There is no member M-999 in this station. No key was made.',
    })
  })

  it('whose file is another key or rubbish signs nothing', async () => {
    const other = await sealedStation()
    const [file] = readdirSync(join(other, 'keys'))
    for (const pem of [
      'rubbish',
      readFileSync(join(folder, 'keys', readdirSync(join(folder, 'keys'))[0]!)),
    ]) {
      chmodSync(join(other, 'keys', file!), 0o600)
      writeFileSync(join(other, 'keys', file!), pem)
      const session = await sessionIn(other)
      await recorded(session, opens(`T-${session.state.seq}`))
      expect(await session.submit(handsOver)).toMatchObject({
        seal: { failed: expect.stringContaining('is not in the folder keys') },
      })
    }
  })
})
