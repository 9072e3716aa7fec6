// Real files whose power can be cut before any call: what was not synced is then lost, kept, kept in part or full of gaps; it must never lose what was.
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { realFiles, type Files } from '../../src/store/files.ts'
import type { Dice } from './dice.ts'

const SECTOR = 512
/** The calls that change something or promise that something is kept; the power is cut before or in one of these. */
const CHANGING = [
  'open',
  'write',
  'fdatasync',
  'ftruncate',
  'rename',
  'remove',
  'makeFolder',
  'syncFolder',
] as const

type PowerDisk = {
  files: Files
  /** The `nth` changing call from now on fails half-way, and every call after it at once. */
  cutAt(nth: number): void
  readonly isCut: boolean
  /** How many changing calls there were. */
  readonly calls: number
  /** What is there now is safely there. */
  settle(): void
  /** Puts the folder into a state that the disk may have after the power came back. */
  comeBack(): void
}

const inodeOf = (path: string): string => String(statSync(path).ino)

export function powerDisk(folder: string, dice: Dice): PowerDisk {
  const contents = new Map<string, Buffer>()
  const names = new Map<string, Map<string, string>>()
  /** What is open. */
  const paths = new Map<number, string>()
  let calls = 0
  let cutAt = Infinity
  let isCut = false

  const foldersIn = (place: string): string[] => [
    place,
    ...readdirSync(place, { withFileTypes: true })
      .filter((each) => each.isDirectory())
      .flatMap((each) => foldersIn(join(place, each.name))),
  ]
  const namesIn = (place: string): Map<string, string> =>
    new Map(readdirSync(place).map((name) => [name, inodeOf(join(place, name))]))

  const died = (): Error => Object.assign(new Error('the power is off'), { code: 'EIO' })
  /** True when this is the call in which the power goes. */
  const isLast = (): boolean => {
    if (isCut) throw died()
    isCut = ++calls >= cutAt
    return isCut
  }
  const perform = (name: keyof Files, args: unknown[]): unknown => {
    const result = (realFiles[name] as (...args: unknown[]) => unknown)(...args)
    if (name === 'open') paths.set(result as number, args[0] as string)
    if (name === 'close') paths.delete(args[0] as number)
    return result
  }
  const guarded = <Name extends keyof Files>(name: Name): Files[Name] => {
    const work = (...args: unknown[]): unknown => {
      if (!(CHANGING as readonly string[]).includes(name)) {
        if (isCut) throw died()
        return perform(name, args)
      }
      // Opening to read changes nothing.
      if (name === 'open' && args[1] === 'read') {
        if (isCut) throw died()
      } else if (isLast()) {
        if (name === 'write') realFiles.write(args[0] as number, partOf(args[1] as Uint8Array))
        else if (dice.under(2) === 0) perform(name, args)
        throw died()
      }
      const result = perform(name, args)
      if (name === 'fdatasync') {
        const path = paths.get(args[0] as number)!
        // A file that was renamed since it was opened is synced all the same.
        if (existsSync(path)) contents.set(inodeOf(path), readFileSync(path))
      }
      if (name === 'syncFolder') names.set(args[0] as string, namesIn(args[0] as string))
      return result
    }
    return work as Files[Name]
  }
  const partOf = (bytes: Uint8Array): Uint8Array => bytes.subarray(0, dice.under(bytes.length + 1))

  const settle = (): void => {
    for (const place of foldersIn(folder)) {
      names.set(place, namesIn(place))
      for (const name of readdirSync(place)) {
        const path = join(place, name)
        if (statSync(path).isFile()) contents.set(inodeOf(path), readFileSync(path))
      }
    }
  }

  /** What may be there of a file that now reads `now` and was last synced as `synced`. */
  const lostOf = (now: Buffer, synced: Buffer): Buffer => {
    if (now.equals(synced)) return now
    if (now.length < synced.length) return dice.oneOf([now, synced])
    const prefix = now.subarray(0, synced.length + dice.under(now.length - synced.length + 1))
    return dice.oneOf([synced, now, prefix, withGaps(now, synced.length)])
  }
  const withGaps = (now: Buffer, from: number): Buffer => {
    const bytes = Buffer.from(now)
    for (let start = from; start < bytes.length;) {
      const end = Math.min(bytes.length, (Math.floor(start / SECTOR) + 1) * SECTOR)
      if (dice.under(2) === 0) bytes.fill(0, start, end)
      start = end
    }
    return bytes
  }

  const comeBack = (): void => {
    isCut = true
    // Nothing stays open in a program whose power has gone.
    for (const open of paths.keys()) realFiles.close(open)
    paths.clear()
    const kept: { path: string; bytes: Buffer }[] = []
    for (const place of foldersIn(folder)) {
      const now = namesIn(place)
      const synced = names.get(place) ?? new Map<string, string>()
      for (const name of new Set([...now.keys(), ...synced.keys()])) {
        // The name is what it was when it was last synced, or what it has become since.
        const inode = dice.oneOf([now.get(name), synced.get(name)])
        if (inode === undefined) continue
        const path = join(place, name)
        const isNow = now.get(name) === inode
        if (isNow && statSync(path).isDirectory()) continue
        const old = contents.get(inode)
        if (!isNow && old === undefined) continue
        const bytes = isNow ? lostOf(readFileSync(path), old ?? Buffer.alloc(0)) : old!
        kept.push({ path, bytes })
      }
    }
    for (const name of readdirSync(folder)) rmSync(join(folder, name), { recursive: true })
    for (const { path, bytes } of kept) {
      mkdirSync(dirname(path), { recursive: true })
      writeFileSync(path, bytes)
    }
  }

  const files = Object.fromEntries(
    (Object.keys(realFiles) as (keyof Files)[]).map((name) => [name, guarded(name)]),
  ) as unknown as Files
  return {
    files,
    cutAt: (nth) => {
      cutAt = calls + nth
    },
    get isCut() {
      return isCut
    },
    get calls() {
      return calls
    },
    settle,
    comeBack,
  }
}
