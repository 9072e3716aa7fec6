// Tells that something was appended to a station's journal without asking for it each second. It must never be trusted to tell everything.
import { statfsSync, watch } from 'node:fs'
import { join } from 'node:path'
import { JOURNAL_NAME } from './journal.ts'
import { codeOf } from './trouble.ts'

interface Heeding {
  /** Whether appends are told of: no where the disk may be another machine's, or the system has no more to give. */
  isTold(): boolean
  stop(): void
}

/** What disks of this machine call themselves to Linux: ext, XFS, Btrfs, tmpfs, overlay. Others may be shared with machines that tell nothing. */
const OWN_DISKS: ReadonlySet<number> = new Set([0xef53, 0x58465342, 0x9123683e, 0x01021994, 0x794c7630])

export function heedJournal(folder: string, changed: () => void): Heeding {
  let isTold = true
  let stop = (): void => undefined
  const lose = (): void => {
    isTold = false
    stop()
  }
  try {
    if (!OWN_DISKS.has(statfsSync(folder).type)) return { isTold: () => false, stop }
    // The file, not its name: it is the one that is open.
    const watcher = watch(join(folder, JOURNAL_NAME), (what) => (what === 'rename' ? lose() : changed()))
    watcher.on('error', lose)
    stop = () => watcher.close()
  } catch (error) {
    if (codeOf(error) === undefined) throw error
    isTold = false
  }
  return { isTold: () => isTold, stop: () => stop() }
}
