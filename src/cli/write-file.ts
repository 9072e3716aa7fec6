// The one way in which a subcommand writes a file for the user; it must never leave half of it under the final name.
import { randomUUID } from 'node:crypto'
import {
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { codeOf, whyOf } from '../store/trouble.ts'
import { complain, printLine, type ExitStatus, type World } from './world.ts'

/** Whole, or in pieces as they are made, so that a long file is never held in memory. */
type Content = string | Uint8Array | Iterable<string | Uint8Array>

export interface Whole {
  path: string
  content: Content
}

export interface OutOptions {
  /** The file; the standard output when there is none. */
  out?: string
  /** Replace the file if it is there. */
  force?: boolean
}

const piecesOf = (content: Content): Iterable<string | Uint8Array> =>
  typeof content === 'string' || content instanceof Uint8Array ? [content] : content

/** Gives what was made to the file of `--out`, or else to the standard output. */
export function putOut(world: World, content: Content, { out, force = false }: OutOptions): ExitStatus {
  if (out !== undefined) return putFiles(world, [{ path: out, content }], force)
  for (const piece of piecesOf(content)) world.stdout.write(piece)
  return 0
}

/** Files that a user has named, all of them or none. A mistake in a name must not make a folder. */
export function putFiles(world: World, files: readonly Whole[], force: boolean): ExitStatus {
  const folder = files.map(({ path }) => dirname(resolve(path))).find((each) => !existsSync(each))
  if (folder !== undefined) {
    return complain(world, `There is no folder ${folder}. Nothing was written. Make it, or mend the name.`, 3)
  }
  const trouble = writeAll(files, force)
  if (trouble !== undefined) return complain(world, trouble, 3)
  for (const { path } of files) printLine(world, `Wrote ${resolve(path)}`)
  return 0
}

const sayThere = (path: string): string =>
  `${path} is already there. Nothing was written. Add --force to replace it.`

/** The same for one file, in the station's own folders: those above it are made. */
export const writeWhole = (path: string, content: Content, force: boolean): string | undefined =>
  writeAll([{ path, content }], force)

/** Writes each beside its final name and moves all there once all are whole and synced; the sentence when it cannot. */
export function writeAll(files: readonly Whole[], force: boolean): string | undefined {
  const staged = files.map(({ path, content }) => {
    const final = resolve(path)
    return { final, content, temporary: join(dirname(final), `.${basename(final)}.${randomUUID()}`) }
  })
  const there = force ? undefined : staged.find(({ final }) => existsSync(final))
  if (there) return sayThere(there.final)
  const placed: string[] = []
  let at = staged[0]!.final
  try {
    for (const { final, temporary, content } of staged) {
      at = final
      // Found out while moving, it would leave those moved before.
      if (statSync(final, { throwIfNoEntry: false })?.isDirectory()) {
        throw Object.assign(new Error('it is a folder'), { code: 'EISDIR' })
      }
      writeSynced(temporary, content)
    }
    for (const { final, temporary } of staged) {
      at = final
      if (force) renameSync(temporary, final)
      else {
        linkSync(temporary, final)
        placed.push(final)
        rmSync(temporary)
      }
    }
    return undefined
  } catch (error) {
    for (const { temporary } of staged) removeQuietly(temporary)
    for (const path of placed) removeQuietly(path)
    if (codeOf(error) === 'EEXIST' && existsSync(at)) return sayThere(at)
    return `${at} cannot be written: ${whyOf(error)}. The journal is not touched by this. Name another place with --out.`
  }
}

function writeSynced(path: string, content: Content): void {
  mkdirSync(dirname(path), { recursive: true })
  const fd = openSync(path, 'wx')
  try {
    for (const piece of piecesOf(content)) {
      const bytes = Buffer.from(piece as Uint8Array)
      for (let done = 0; done < bytes.length;) done += someOf(writeSync(fd, bytes, done))
    }
    fsyncSync(fd)
  } finally {
    closeSync(fd)
  }
}

/** A disk may take a part at a time; one that takes nothing and names no error would be asked for ever. */
function someOf(written: number): number {
  if (written === 0) throw new Error('the disk took only part of it')
  return written
}

/** What was to be written there has failed already, and that is what the user is told. */
function removeQuietly(path: string): void {
  try {
    rmSync(path, { force: true })
  } catch (error) {
    if (codeOf(error) === undefined) throw error
  }
}
