// How a journal is opened, read, appended to, on real files.
import { mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openJournal, type Journal } from '../../src/store/journal.ts'
import { MAX_LINE_BYTES, type Entry } from '../../src/store/line.ts'
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
import { makeFolderToStay, realFiles, type Files } from '../../src/store/files.ts'

const ignore = () => undefined

describe('opening', () => {
  it('says that there is no station where the folder, the journal or any line is missing', () => {
    const folder = newFolder()
    expect(openJournal(join(folder, 'nothing')).kind).toBe('no-station')
    expect(openJournal(folder).kind).toBe('no-station')
    put(folder, '')
    expect(openJournal(folder)).toMatchObject({
      kind: 'no-station',
      sentence: expect.stringContaining('no station'),
    })
    put(folder, '{"seq":1,"at"')
    expect(openJournal(folder).kind).toBe('no-station')
    expect(bytesIn(folder).length).toBe(13)
  })

  it('tells what cannot be read from what is damaged', () => {
    const folder = newFolder()
    mkdirSync(pathIn(folder))
    expect(openJournal(folder)).toMatchObject({
      kind: 'unreadable',
      sentence: expect.stringContaining('EISDIR'),
    })
    const other = newFolder()
    madeJournal(other).close()
    for (const code of ['EACCES', 'EIO']) {
      const { files } = failingFiles({ call: code === 'EIO' ? 'read' : 'open', code })
      expect(openJournal(other, { files })).toMatchObject({
        kind: 'unreadable',
        sentence: expect.stringContaining(code),
      })
    }
  })

  it('makes the folder and an empty journal only when asked', () => {
    const folder = join(newFolder(), 'a', 'b')
    const { files, calls } = failingFiles()
    makeFolderToStay(files, folder)
    expect(calls).toEqual(['makeFolder', 'syncFolder', 'syncFolder'])
    madeJournal(folder, drafts(1)).close()
    expect(readBack(folder).texts).toEqual(['note 1'])
  })

  it('is for reading only where the first event names a format it does not know', () => {
    const folder = newFolder()
    madeJournal(folder, [{ ...draft(''), type: 'station-made', data: { format: 2 } }, draft('later')]).close()
    const journal = open(folder)
    expect(journal.stopped).toContain('format 2; this program knows format 1')
    expect(journal.catchUp(ignore)).toMatchObject({ kind: 'whole', count: 2 })
    expect(journal.append(held, draft('note 1'))).toMatchObject({ ok: false, why: 'read-only' })
    const known = newFolder()
    madeJournal(known, [{ ...draft(''), type: 'station-made', data: { format: 1 } }]).close()
    expect(open(known).stopped).toBeUndefined()
  })
})

describe('going on from a position', () => {
  it('starts there when the journal has that line there, and at the start when anything about it differs', () => {
    const folder = newFolder()
    const journal = madeJournal(folder, drafts(2))
    const from = journal.head
    journal.append(held, draft('third'))
    const later = journal.head
    journal.close()
    const startedAt = (position: typeof from) => {
      const opened = openJournal(folder, { from: position })
      if (opened.kind !== 'opened') throw new Error(opened.sentence)
      const seen: number[] = []
      opened.journal.catchUp((entry) => seen.push(entry.seq))
      opened.journal.close()
      return [opened.startedAt, ...seen]
    }
    expect(startedAt(from)).toEqual(['position', 3])
    expect(startedAt(later)).toEqual(['position'])
    const all = ['start', 1, 2, 3]
    expect(startedAt({ ...from, seq: 1 })).toEqual(all)
    expect(startedAt({ ...from, hash: later.hash })).toEqual(all)
    expect(startedAt({ ...from, offset: from.offset - 1 })).toEqual(all)
    expect(startedAt({ ...from, offset: from.offset + 1 })).toEqual(all)
    expect(startedAt({ ...from, offset: 0 })).toEqual(all)
    expect(startedAt({ ...later, offset: later.offset + 5000 })).toEqual(all)
  })

  it('finds the line before the position however long it is', () => {
    const folder = newFolder()
    const journal = madeJournal(folder, [draft('x'.repeat(300_000)), draft('y'.repeat(300_000))])
    const from = journal.head
    journal.close()
    expect(openJournal(folder, { from })).toMatchObject({ startedAt: 'position' })
  })
})

describe('appending', () => {
  it('gives back the entry as a later reading delivers it', () => {
    const folder = newFolder()
    const journal = open(folder, { make: true })
    const data = { kept: null, dropped: undefined, on: new Date(0) }
    const appended = journal.append(held, { ...draft(''), data })
    const { entries, head } = readBack(folder)
    expect(appended).toEqual({ ok: true, entry: entries[0] })
    expect(entries.map((entry) => entry.seq)).toEqual([1])
    expect(head).toEqual(journal.head)
    expect(readdirSync(folder)).toEqual(['journal.jsonl'])
  })

  it('is refused as behind until what others appended has been read', () => {
    const folder = newFolder()
    const here = madeJournal(folder, drafts(1))
    const there = open(folder)
    there.catchUp(ignore)
    there.append(held, draft('from there'))
    expect(here.append(held, draft('from here'))).toMatchObject({ ok: false, why: 'behind' })
    const seen: Entry[] = []
    expect(here.catchUp((entry) => seen.push(entry))).toEqual({ kind: 'whole', count: 1 })
    expect(seen[0]?.data).toEqual({ text: 'from there' })
    expect(here.append(held, draft('from here')).ok).toBe(true)
    expect(readBack(folder).texts).toEqual(['note 1', 'from there', 'from here'])
  })

  it('is refused when the lock was lost, and changes nothing', () => {
    const folder = newFolder()
    const journal = madeJournal(folder, drafts(1))
    const before = bytesIn(folder)
    expect(journal.append({ isLost: () => true }, draft('note 1'))).toMatchObject({
      ok: false,
      why: 'lock-lost',
    })
    expect(bytesIn(folder)).toEqual(before)
    expect(journal.append(held, draft('note 1')).ok).toBe(true)
  })

  describe('is refused when another file has taken the name of the journal', () => {
    const copied = (folder: string): string => {
      writeFileSync(join(folder, 'copy'), bytesIn(folder))
      return join(folder, 'copy')
    }
    const twice = (journal: Journal) => [1, 2].map(() => journal.append(held, draft('note 4')))
    const failed = { ok: false, why: 'failed' }

    it.each(['after its first append', 'before it'])('%s', (when) => {
      const folder = newFolder()
      const made = madeJournal(folder)
      const journal = when === 'before it' ? open(folder) : made
      journal.catchUp(ignore)
      renameSync(copied(folder), pathIn(folder))
      expect(twice(journal)).toMatchObject([failed, failed])
      expect(readBack(folder).texts).toHaveLength(3)
    })

    it('for the very moment in which it was opened to be written', () => {
      const folder = newFolder()
      madeJournal(folder).close()
      const copy = copied(folder)
      const opening: Files['open'] = (path, purpose) =>
        realFiles.open(purpose === 'append' ? copy : path, purpose)
      const journal = open(folder, { files: { ...realFiles, open: opening } })
      journal.catchUp(ignore)
      expect(twice(journal)).toMatchObject([failed, failed])
      expect(readBack(folder).texts).toHaveLength(3)
      expect(readFileSync(copy)).toEqual(bytesIn(folder))
    })
  })

  it('refuses one entry that is longer than a line may be', () => {
    const folder = newFolder()
    const journal = madeJournal(folder, drafts(1))
    expect(journal.append(held, draft('x'.repeat(MAX_LINE_BYTES)))).toMatchObject({
      ok: false,
      why: 'too-long',
    })
    expect(journal.append(held, draft('short')).ok).toBe(true)
  })
})
