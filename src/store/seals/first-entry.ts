// Reads the first line of a journal, which says what station it is; it must never read on.
import { join } from 'node:path'
import type { Files } from '../files.ts'
import { JOURNAL_NAME } from '../journal.ts'
import { checkLine, ZEROS } from '../line.ts'
import { eachLine } from '../line-reader.ts'

type FirstEntry = { hash: string; data: Record<string, unknown> }

/** Undefined where the first line does not check. */
export const firstEntry = (folder: string, files: Files): FirstEntry | undefined => {
  const fd = files.open(join(folder, JOURNAL_NAME), 'read')
  try {
    let first: FirstEntry | undefined
    const end = eachLine(files, fd, 0, 1, (bytes) => {
      const checked = checkLine(bytes, 1, ZEROS)
      if (checked.ok)
        first = { hash: checked.entry.hash, data: checked.entry.data as Record<string, unknown> }
      return false
    })
    if (end.kind === 'unreadable') throw end.error
    return first
  } finally {
    files.close(fd)
  }
}
