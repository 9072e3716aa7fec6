// The few file calls the store makes, as a port that a test can make fail; it must never swallow an error or retry a call.
import {
  closeSync,
  fdatasyncSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  mkdirSync,
  openSync,
  readSync,
  renameSync,
  statSync,
  unlinkSync,
  writeSync,
  type Stats,
} from 'node:fs'
import { dirname, resolve } from 'node:path'

/** `identity` tells one file from another that later took its name. */
export type FileFacts = { size: number; identity: string }

/** `read` to read, `append` to write at the end and make the file if it is not there, `new` to make a file that must not exist. */
export type OpenFor = 'read' | 'append' | 'new'

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
  /** Undefined if nothing has that name. */
  stat(path: string): FileFacts | undefined
  rename(from: string, to: string): void
  remove(path: string): void
  /** Makes the folder and the ones above it; returns the first that it had to make. */
  makeFolder(path: string): string | undefined
  /** Puts the names in a folder on disk. */
  syncFolder(path: string): void
}

const FLAGS: Record<OpenFor, string> = { read: 'r', append: 'a', new: 'wx' }

const factsOf = (stats: Stats): FileFacts => {
  // Opening a folder for reading succeeds, so it is refused here with the code that reading it would give.
  if (stats.isDirectory()) throw Object.assign(new Error('it is a folder'), { code: 'EISDIR' })
  return { size: stats.size, identity: `${stats.dev}:${stats.ino}` }
}

export const realFiles: Files = {
  open: (path, purpose) => openSync(path, FLAGS[purpose]),
  close: closeSync,
  read: (fd, into, position) => readSync(fd, into, 0, into.length, position),
  write: (fd, bytes) => writeSync(fd, bytes),
  fdatasync: fdatasyncSync,
  ftruncate: ftruncateSync,
  fstat: (fd) => factsOf(fstatSync(fd)),
  stat: (path) => {
    // Far cheaper than an error, and every append asks for a file that is seldom there.
    const stats = statSync(path, { throwIfNoEntry: false })
    return stats === undefined ? undefined : factsOf(stats)
  },
  rename: renameSync,
  remove: unlinkSync,
  makeFolder: (path) => mkdirSync(path, { recursive: true }),
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
export const writeNewFile = (files: Files, path: string, bytes: Uint8Array): void => {
  const fd = files.open(path, 'new')
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
