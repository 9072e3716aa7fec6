// A file system of 64 kB that really fills up, in a name space of its own.
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** A folder is only the place to mount on: nothing is left in it. */
function inside(size: string, commandIn: (folder: string) => readonly string[]) {
  const folder = mkdtempSync(join(tmpdir(), 'bayboard-full-'))
  try {
    return spawnSync(
      'unshare',
      [
        '-rm',
        'sh',
        '-c',
        `mount -t tmpfs -o size=${size} tmpfs "$0" && exec "$@"`,
        folder,
        ...commandIn(folder),
      ],
      { encoding: 'utf8' },
    )
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

export const hasSmallDisks = inside('64k', () => ['true']).status === 0

export function filledDisk(program: string, size: string): string | undefined {
  const { stdout, stderr } = inside(size, (folder) => [process.execPath, program, folder, 'full'])
  return /^full\nsound after [1-9]\d*\n$/.test(stdout) ? undefined : `${stdout}${stderr}`
}
