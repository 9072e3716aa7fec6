// That a torn tail is set aside exactly and damage is told and never repaired, on real files.
import { appendFileSync, readdirSync, readFileSync, truncateSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { MAX_LINE_BYTES } from '../../src/store/line.ts'
import {
  bytesIn,
  draft,
  drafts,
  held,
  madeJournal,
  newFolder,
  open,
  pathIn,
  put,
  readBack,
} from './station-folder.ts'
import { failingFiles } from './failing-files.ts'

const ignore = () => undefined

const AT = '2026-11-24T07:02:11.482-05:00'

const changed = (folder: string, at: number, byte: number): void => {
  const bytes = bytesIn(folder)
  bytes.writeUInt8(byte, at)
  put(folder, bytes)
}

describe('a torn tail', () => {
  it('cut at any byte is left alone by reading, then set aside exactly, and the journal goes on', () => {
    const folder = newFolder()
    const journal = madeJournal(folder, drafts(2))
    const keep = journal.head.offset
    journal.append(held, draft('third'))
    journal.close()
    const whole = bytesIn(folder)
    for (let size = keep + 1; size < whole.length; size++) {
      const cut = newFolder()
      put(cut, whole.subarray(0, size))
      const torn = { offset: keep, bytes: size - keep }
      expect(readBack(cut)).toMatchObject({ texts: ['note 1', 'note 2'], caughtUp: { kind: 'torn', torn } })
      expect(bytesIn(cut)).toEqual(whole.subarray(0, size))
      const again = open(cut)
      again.catchUp(ignore)
      expect(again.append(held, draft('too early'))).toMatchObject({ why: 'behind' })
      const name = 'journal.torn-2026-11-24T070211.482-0500'
      expect(again.setTornAside(held, torn, AT)).toEqual({ ok: true, name, ...torn })
      expect(readFileSync(join(cut, name))).toEqual(whole.subarray(keep, size))
      expect(bytesIn(cut)).toEqual(whole.subarray(0, keep))
      expect(again.append(held, draft('goes on')).ok).toBe(true)
      again.close()
      expect(readBack(cut)).toMatchObject({
        texts: ['note 1', 'note 2', 'goes on'],
        caughtUp: { kind: 'whole' },
      })
    }
  })

  it('keeps every set-aside file when recovery is cut short and repeated', () => {
    const folder = newFolder()
    madeJournal(folder, drafts(1)).close()
    appendFileSync(pathIn(folder), '{"seq":2,')
    for (const call of ['ftruncate', 'fdatasync'] as const) {
      // The second fdatasync is the one after the cut; the first belongs to the copy.
      const { files } = failingFiles({ call, code: 'EIO', nth: call === 'fdatasync' ? 2 : 1 })
      const journal = open(folder, { files })
      const caughtUp = journal.catchUp(ignore)
      if (caughtUp.kind !== 'torn') throw new Error(caughtUp.kind)
      expect(journal.setTornAside(held, caughtUp.torn, AT)).toMatchObject({ ok: false, why: 'failed' })
      journal.close()
    }
    const aside = readdirSync(folder).filter((name) => name.startsWith('journal.torn-'))
    expect(aside.map((name) => readFileSync(join(folder, name), 'utf8'))).toEqual(['{"seq":2,', '{"seq":2,'])
    expect(readBack(folder)).toMatchObject({ texts: ['note 1'], caughtUp: { kind: 'whole' } })
  })

  it('is not set aside when another program has finished it meanwhile', () => {
    const folder = newFolder()
    madeJournal(folder, drafts(3)).close()
    const whole = bytesIn(folder)
    put(folder, whole.subarray(0, -20))
    const journal = open(folder)
    const caughtUp = journal.catchUp(ignore)
    if (caughtUp.kind !== 'torn') throw new Error(caughtUp.kind)
    put(folder, whole)
    expect(journal.setTornAside(held, caughtUp.torn, AT)).toMatchObject({ ok: false, why: 'behind' })
    expect(bytesIn(folder)).toEqual(whole)
  })
})

describe('damage', () => {
  it('in the middle is named by line and byte, what is before it is read, and nothing can be recorded or repaired', () => {
    const folder = newFolder()
    madeJournal(folder, drafts(5)).close()
    const second = bytesIn(folder).indexOf('\n') + 1
    const third = bytesIn(folder).indexOf('\n', second) + 1
    changed(folder, third + 40, 0x58)
    const before = bytesIn(folder)
    const { caughtUp, texts, stopped } = readBack(folder)
    expect(caughtUp).toMatchObject({ kind: 'damaged', count: 2, damage: { line: 3, offset: third } })
    expect(texts).toEqual(['note 1', 'note 2'])
    expect(stopped).toContain(`damaged at line 3 (byte ${third})`)
    const journal = open(folder)
    journal.catchUp(ignore)
    expect(journal.append(held, draft('note 1'))).toMatchObject({ ok: false, why: 'read-only' })
    const torn = { offset: third, bytes: before.length - third }
    expect(journal.setTornAside(held, torn, AT)).toMatchObject({ ok: false, why: 'read-only' })
    expect(bytesIn(folder)).toEqual(before)
  })

  it('in a complete last line is damage and no tear', () => {
    const folder = newFolder()
    madeJournal(folder, drafts(2)).close()
    changed(folder, bytesIn(folder).length - 10, 0x58)
    expect(readBack(folder).caughtUp).toMatchObject({ kind: 'damaged', damage: { line: 2 } })
  })

  it.each([1, 2])(
    'in the last newline of %i is damage and no tear, since a crash leaves no other byte there',
    (count) => {
      const folder = newFolder()
      madeJournal(folder, drafts(count)).close()
      changed(folder, bytesIn(folder).length - 1, 0x0b)
      expect(readBack(folder).caughtUp).toMatchObject({ kind: 'damaged', damage: { line: count } })
    },
  )

  it('is what a file is that has become shorter, or has a line without an end', () => {
    const folder = newFolder()
    const journal = madeJournal(folder, drafts(2))
    put(folder, bytesIn(folder).subarray(0, 100))
    expect(journal.catchUp(ignore)).toMatchObject({ kind: 'damaged' })
    const endless = newFolder()
    madeJournal(endless, drafts(1)).close()
    truncateSync(pathIn(endless), MAX_LINE_BYTES * 2 + 1000)
    expect(readBack(endless).caughtUp).toMatchObject({ kind: 'damaged', damage: { line: 2 } })
  })
})
