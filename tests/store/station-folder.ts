// Small journals in temporary folders for the tests of the store; it must never write a journal except through the store.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll } from 'vitest'
import type { Files } from '../../src/store/files.ts'
import { openJournal, type Journal, type OpenOptions } from '../../src/store/journal.ts'
import type { Draft, Entry } from '../../src/store/line.ts'
import type { Held } from '../../src/store/lock.ts'

/** Stands for the lock where one process is alone with its folder. */
export const held: Held = { isLost: () => false }

const made: string[] = []

afterAll(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true })
})

export function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'bayboard-store-'))
  made.push(folder)
  return folder
}

export const draft = (text: string): Draft => ({
  at: '2026-11-24T07:02:11.482-05:00',
  by: 'M-104',
  type: 'noted',
  data: { text },
})

export const drafts = (count: number): Draft[] =>
  Array.from({ length: count }, (_, i) => draft(`note ${i + 1}`))

export const open = (folder: string, options: OpenOptions = {}): Journal => {
  const opened = openJournal(folder, options)
  if (opened.kind !== 'opened') throw new Error(opened.sentence)
  return opened.journal
}

/** A new journal with one append for each draft. */
export const madeJournal = (folder: string, written: Draft[] = drafts(3), files?: Files): Journal => {
  const journal = open(folder, files === undefined ? { make: true } : { make: true, files })
  for (const each of written) {
    const appended = journal.append(held, each)
    if (!appended.ok) throw new Error(appended.sentence)
  }
  return journal
}

export const pathIn = (folder: string): string => join(folder, 'journal.jsonl')
export const bytesIn = (folder: string): Buffer => readFileSync(pathIn(folder))
export const put = (folder: string, bytes: Uint8Array | string): void => writeFileSync(pathIn(folder), bytes)

/** The texts of the entries that a fresh reading delivers, with how the reading ended. */
export const readBack = (folder: string) => {
  const journal = open(folder)
  const entries: Entry[] = []
  const caughtUp = journal.catchUp((entry) => entries.push(entry))
  const { head, stopped } = journal
  journal.close()
  return { caughtUp, entries, texts: entries.map(textOf), head, stopped }
}

const textOf = (entry: Entry): string => ('text' in entry.data ? String(entry.data.text) : '')
