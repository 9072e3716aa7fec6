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
  writeSync,
} from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { codeOf, whyOf } from '../store/trouble.ts'
import { complain, printLine, type ExitStatus, type World } from './world.ts'

/** Whole, or in pieces as they are made, so that a long file is never held in memory. */
export type Content = string | Uint8Array | Iterable<string | Uint8Array>

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
  if (out === undefined) {
    for (const piece of piecesOf(content)) world.stdout.write(piece)
    return 0
  }
  const trouble = writeWhole(out, content, force)
  if (trouble !== undefined) return complain(world, trouble, 3)
  printLine(world, `Wrote ${resolve(out)}`)
  return 0
}

export const sayThere = (path: string): string =>
  `${path} is already there. Nothing was written. Add --force to replace it.`

/** Writes beside the final name and moves it there when it is whole and synced; the sentence when it cannot. */
export function writeWhole(path: string, content: Content, force: boolean): string | undefined {
  const final = resolve(path)
  if (!force && existsSync(final)) return sayThere(final)
  const temporary = join(dirname(final), `.${basename(final)}.${randomUUID()}`)
  try {
    mkdirSync(dirname(final), { recursive: true })
    const fd = openSync(temporary, 'wx')
    try {
      for (const piece of piecesOf(content)) {
        const bytes = Buffer.from(piece as Uint8Array)
        // A full disk may take part of it without an error.
        if (writeSync(fd, bytes) !== bytes.length) throw new Error('the disk took only part of it')
      }
      fsyncSync(fd)
    } finally {
      closeSync(fd)
    }
    if (force) renameSync(temporary, final)
    else {
      linkSync(temporary, final)
      rmSync(temporary)
    }
    return undefined
  } catch (error) {
    removeQuietly(temporary)
    if (codeOf(error) === 'EEXIST' && existsSync(final)) return sayThere(final)
    return `${final} cannot be written: ${whyOf(error)}. The journal is not touched by this. Name another place with --out.`
  }
}

/** What was to be written there has failed already, and that is what the user is told. */
function removeQuietly(path: string): void {
  try {
    rmSync(path, { force: true })
  } catch (error) {
    if (codeOf(error) === undefined) throw error
  }
}
