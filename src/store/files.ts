// The few file calls the store makes, as a port that a test can make fail; it must never swallow an error or retry a call.
import {
  closeSync,
  existsSync,
  fdatasyncSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  renameSync,
  statSync,
  unlinkSync,
  writeSync,
  type Stats,
} from 'node:fs'
import { randomUUID } from 'node:crypto'
import { dirname, join, resolve } from 'node:path'
import { codeOf } from './trouble.ts'

/** `identity` tells one file from another that later took its name. */
type FileFacts = { size: number; identity: string }

/** `read` to read, `append` to write at the end and make the file if it is not there, `new` to make a file that must not exist, `secret` the same for its owner's eyes only. */
type OpenFor = 'read' | 'append' | 'new' | 'secret'

export type Files = {
  open(path: string, purpose: OpenFor): number
  close(fd: number): void
  /** Bytes read, 0 at the end of the file. */
  read(fd: number, into: Uint8Array, position: number): number
  /** Bytes written, which can be fewer than were given: on a full disk that is no exception. */
  write(fd: number, bytes: Uint8Array): number
  fdatasync(fd: number): void
  ftruncate(fd: number, length: number): void
  fstat(fd: number): FileFacts
  /** The names in a folder. */
  list(path: string): string[]
  /** Undefined if nothing has that name. */
  stat(path: string): FileFacts | undefined
  rename(from: string, to: string): void
  remove(path: string): void
  /** Makes the folder and the ones above it; returns the first that it had to make. */
  makeFolder(path: string): string | undefined
  /** Puts the names in a folder on disk. */
  syncFolder(path: string): void
}

const FLAGS: Record<OpenFor, string> = { read: 'r', append: 'a', new: 'wx', secret: 'wx' }

const factsOf = (stats: Stats): FileFacts => {
  // Opening a folder for reading succeeds, so it is refused here with the code that reading it would give.
  if (stats.isDirectory()) throw Object.assign(new Error('it is a folder'), { code: 'EISDIR' })
  return { size: stats.size, identity: `${stats.dev}:${stats.ino}` }
}

/** Name by name: asked to make all of them at once, Node never comes back from a place such as /proc. */
function makeFolder(path: string): string | undefined {
  const missing: string[] = []
  for (let at = resolve(path); !existsSync(at); at = dirname(at)) missing.unshift(at)
  for (const each of missing) {
    try {
      mkdirSync(each)
    } catch (error) {
      // Another program made it meanwhile.
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
    }
  }
  if (!missing.length && !statSync(path).isDirectory()) mkdirSync(path)
  return missing[0]
}

export const realFiles: Files = {
  open: (path, purpose) => openSync(path, FLAGS[purpose], purpose === 'secret' ? 0o600 : 0o666),
  close: closeSync,
  read: (fd, into, position) => readSync(fd, into, 0, into.length, position),
  write: (fd, bytes) => writeSync(fd, bytes),
  fdatasync: fdatasyncSync,
  ftruncate: ftruncateSync,
  fstat: (fd) => factsOf(fstatSync(fd)),
  list: (path) => readdirSync(path),
  stat: (path) => {
    // Far cheaper than an error, and every append asks for a file that is seldom there.
    const stats = statSync(path, { throwIfNoEntry: false })
    return stats === undefined ? undefined : factsOf(stats)
  },
  rename: renameSync,
  remove: unlinkSync,
  makeFolder,
  syncFolder: (path) => {
    const fd = openSync(path, 'r')
    try {
      fsyncSync(fd)
    } finally {
      closeSync(fd)
    }
  },
}

/** Makes a folder that will still be there after a power loss: each new name on the way is synced in the folder above it. */
export const makeFolderToStay = (files: Files, folder: string): void => {
  const first = files.makeFolder(folder)
  if (first === undefined) return
  const top = dirname(resolve(first))
  let above = resolve(folder)
  while (above !== top && above !== dirname(above)) {
    above = dirname(above)
    files.syncFolder(above)
  }
}

/** Writes and syncs a file that must not exist yet; an error leaves it to the caller to remove what is there of it. */
export const writeNewFile = (
  files: Files,
  path: string,
  bytes: Uint8Array,
  purpose: 'new' | 'secret' = 'new',
): void => {
  const fd = files.open(path, purpose)
  try {
    const written = files.write(fd, bytes)
    if (written !== bytes.length) throw shortWrite(written, bytes.length)
    files.fdatasync(fd)
  } finally {
    files.close(fd)
  }
}

export const shortWrite = (written: number, wanted: number): Error =>
  Object.assign(new Error(`only ${written} of ${wanted} bytes were written`), { code: 'SHORT' })

/** Puts a whole file under a name: at any moment the name leads to nothing, the old file or all of the new one. */
export const placeFile = (
  files: Files,
  folder: string,
  name: string,
  bytes: Uint8Array,
  purpose: 'new' | 'secret' = 'new',
): void => {
  const temporary = join(folder, `.${name}.${process.pid}-${randomUUID()}`)
  try {
    writeNewFile(files, temporary, bytes, purpose)
    files.rename(temporary, join(folder, name))
    files.syncFolder(folder)
  } catch (error) {
    removeQuietly(files, temporary)
    throw error
  }
}

const removeQuietly = (files: Files, path: string): void => {
  try {
    files.remove(path)
  } catch (error) {
    if (codeOf(error) === undefined) throw error
  }
}

/** The whole of a small file, or what it begins with. */
export const readWhole = (files: Files, path: string, most = Infinity): Buffer => {
  const fd = files.open(path, 'read')
  try {
    const bytes = Buffer.allocUnsafe(Math.min(files.fstat(fd).size, most))
    let filled = 0
    while (filled < bytes.length) {
      const got = files.read(fd, bytes.subarray(filled), filled)
      if (got === 0) break
      filled += got
    }
    return bytes.subarray(0, filled)
  } finally {
    files.close(fd)
  }
}

/** Undefined where the file ends before. */
export const readAt = (files: Files, fd: number, from: number, length: number): Buffer | undefined => {
  const bytes = Buffer.allocUnsafe(length)
  let filled = 0
  while (filled < length) {
    const got = files.read(fd, bytes.subarray(filled), from + filled)
    if (got === 0) return undefined
    filled += got
  }
  return bytes
}
