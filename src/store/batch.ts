// The mark that several lines are being appended as one, so that a crash leaves all or none; it must be on disk before their first byte.
import { join } from 'node:path'
import { z } from 'zod'
import { writeNewFile, type Files } from './files.ts'
import { codeOf } from './trouble.ts'

/** Bytes `from` up to `to` belong together; `hash` is the head's hash at `from`, so a mark cannot be taken for another journal's. */
export type Batch = { from: number; to: number; hash: string }

export const BATCH_NAME = 'journal.batch'

const batchShape = z.strictObject({ from: z.int().min(0), to: z.int().min(1), hash: z.string() })
const LARGEST_MARK = 512

/** Only under the lock. */
export const markBatch = (files: Files, folder: string, batch: Batch): void => {
  writeNewFile(files, join(folder, BATCH_NAME), Buffer.from(JSON.stringify(batch)))
  files.syncFolder(folder)
}

/** The batch begun and not finished when the journal had `size` bytes. Take the size first: a mark is made before the bytes it covers. */
export const unfinishedBatch = (files: Files, folder: string, size: number): Batch | undefined => {
  const batch = readMark(files, folder)
  return batch !== undefined && size > batch.from && size < batch.to ? batch : undefined
}

/** Only under the lock, and once no unfinished batch is left. */
export const clearMark = (files: Files, folder: string): void => {
  if (files.stat(join(folder, BATCH_NAME)) === undefined) return
  files.remove(join(folder, BATCH_NAME))
  // A mark that came back after a power loss would cover lines appended later.
  files.syncFolder(folder)
}

/** After a batch is on disk its mark covers nothing any more: should it stay, or come back, it does no harm and the next append clears it. */
export const dropMark = (files: Files, folder: string): void => {
  try {
    files.remove(join(folder, BATCH_NAME))
  } catch (error) {
    if (codeOf(error) === undefined) throw error
  }
}

const readMark = (files: Files, folder: string): Batch | undefined => {
  const bytes = Buffer.alloc(LARGEST_MARK)
  let length = 0
  try {
    const fd = files.open(join(folder, BATCH_NAME), 'read')
    try {
      length = files.read(fd, bytes, 0)
    } finally {
      files.close(fd)
    }
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return undefined
    throw error
  }
  // A mark that is itself torn was never synced, so not one byte of its batch was appended.
  return batchShape.safeParse(jsonOrNothing(bytes.toString('utf8', 0, length))).data
}

const jsonOrNothing = (text: string): unknown => {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}
