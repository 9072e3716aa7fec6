// Sets an unfinished end of the journal aside and cuts it off; it must never cut a byte that is not yet on disk elsewhere.
import { basename, join } from 'node:path'
import { writeNewFile } from './files.ts'
import type { Held } from './lock.ts'
import { behind, fail, openForAppend, refusalOf, type OpenFile, type Refusal } from './open-file.ts'
import { codeOf } from './trouble.ts'
import { lacksSectors, type Torn } from './catch-up.ts'

/** `name` is the file in the station's folder that now holds the bytes cut off. */
export type SetAside = { ok: true; name: string; offset: number; bytes: number } | Refusal

const MOST_NAMES = 1000

/** Only under the lock, and for a tail that `catchUp` found under that same lock. `at` is the instant for the file's name. */
export const setTornAside = (file: OpenFile, held: Held, torn: Torn, at: string): SetAside => {
  const refusal = refusalOf(file, held)
  if (refusal !== undefined) return refusal
  const { files, folder } = file
  const { offset } = file.head
  try {
    const { fd, size } = openForAppend(file)
    if (torn.offset !== offset || size !== offset + torn.bytes) return behind
    const tail = readTail(file, torn)
    // A tail that ends a line and lacks nothing is no tear: somebody has finished it meanwhile.
    if (tail.at(-1) === 10 && !lacksSectors(tail.subarray(0, -1), offset)) return behind
    const path = writeAside(file, tail, at)
    files.syncFolder(folder)
    files.ftruncate(fd, offset)
    files.fdatasync(fd)
    return { ok: true, name: basename(path), offset, bytes: torn.bytes }
  } catch (error) {
    return fail(file, error)
  }
}

const readTail = (file: OpenFile, torn: Torn): Buffer => {
  const tail = Buffer.allocUnsafe(torn.bytes)
  for (let filled = 0; filled < torn.bytes;) {
    const got = file.files.read(file.readFd, tail.subarray(filled), torn.offset + filled)
    if (got === 0) throw new Error('the end of the journal changed while it was read')
    filled += got
  }
  return tail
}

/** A recovery that was itself cut short has left a file of the same name: it stays, and the next name is taken. */
const writeAside = (file: OpenFile, tail: Buffer, at: string): string => {
  const stamp = at.replaceAll(/[^0-9A-Za-z.+-]/g, '')
  for (let turn = 1; ; turn++) {
    const path = join(file.folder, `journal.torn-${stamp}${turn === 1 ? '' : `-${turn}`}`)
    try {
      writeNewFile(file.files, path, tail)
      return path
    } catch (error) {
      if (codeOf(error) !== 'EEXIST' || turn === MOST_NAMES) throw error
    }
  }
}
