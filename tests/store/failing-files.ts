// File calls that fail, write short or lose what was not synced, over real files; it must never change a call that it was not told to.
import { readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { realFiles, type Files } from '../../src/store/files.ts'

/** The call to fail: the `nth` of its name (counted from 1), once or from then on. `short` writes only that many bytes and throws nothing. */
export type Fault = { call: keyof Files; code?: string; short?: number; nth?: number; forEver?: boolean }

export const failingFiles = (fault?: Fault): { files: Files; calls: string[] } => {
  const calls: string[] = []
  let seen = 0
  const isHit = (name: string): boolean => {
    calls.push(name)
    if (fault === undefined || name !== fault.call) return false
    seen++
    const nth = fault.nth ?? 1
    return seen === nth || (seen > nth && fault.forEver === true)
  }
  const guarded =
    <A extends unknown[], R>(name: keyof Files, real: (...args: A) => R) =>
    (...args: A): R => {
      if (isHit(name) && fault?.short === undefined) {
        throw Object.assign(new Error(`${fault?.code} from the test`), { code: fault?.code })
      }
      return real(...args)
    }
  const files: Files = {
    open: guarded('open', realFiles.open),
    close: guarded('close', realFiles.close),
    read: guarded('read', realFiles.read),
    write: (fd, bytes) => {
      if (!isHit('write')) return realFiles.write(fd, bytes)
      if (fault?.short !== undefined) return realFiles.write(fd, bytes.subarray(0, fault.short))
      throw Object.assign(new Error(`${fault?.code} from the test`), { code: fault?.code })
    },
    fdatasync: guarded('fdatasync', realFiles.fdatasync),
    ftruncate: guarded('ftruncate', realFiles.ftruncate),
    fstat: guarded('fstat', realFiles.fstat),
    list: guarded('list', realFiles.list),
    stat: guarded('stat', realFiles.stat),
    rename: guarded('rename', realFiles.rename),
    remove: guarded('remove', realFiles.remove),
    makeFolder: guarded('makeFolder', realFiles.makeFolder),
    syncFolder: guarded('syncFolder', realFiles.syncFolder),
  }
  return { files, calls }
}

const identityOf = (path: string) => String(statSync(path).ino)

/** Real files in one folder that, at `loseThePower`, go back to what was synced: contents by fdatasync, names by syncFolder. */
export const forgetfulFiles = (folder: string): { files: Files; loseThePower: () => void } => {
  const contents = new Map<string, Buffer>()
  let names = new Map<string, string>()
  const paths = new Map<number, string>()
  const files: Files = {
    ...realFiles,
    open: (path, purpose) => {
      const fd = realFiles.open(path, purpose)
      paths.set(fd, path)
      return fd
    },
    fdatasync: (fd) => {
      const path = paths.get(fd) ?? ''
      contents.set(identityOf(path), readFileSync(path))
      realFiles.fdatasync(fd)
    },
    syncFolder: (path) => {
      if (path === folder) {
        names = new Map(readdirSync(folder).map((name) => [name, identityOf(join(folder, name))]))
      }
      realFiles.syncFolder(path)
    },
  }
  const loseThePower = () => {
    for (const name of readdirSync(folder)) rmSync(join(folder, name))
    for (const [name, identity] of names) {
      writeFileSync(join(folder, name), contents.get(identity) ?? Buffer.alloc(0))
    }
  }
  return { files, loseThePower }
}
