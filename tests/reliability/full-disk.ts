// A file system of 64 kB that really fills up, in a name space of its own.
import { spawnSync } from 'node:child_process'
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

const inside = (folder: string, size: string, command: readonly string[]) =>
  spawnSync(
    'unshare',
    ['-rm', 'sh', '-c', `mount -t tmpfs -o size=${size} tmpfs "$0" && exec "$@"`, folder, ...command],
    { encoding: 'utf8' },
  )

const newFolder = (): string => mkdtempSync(join(tmpdir(), 'bayboard-full-'))

export const hasSmallDisks = inside(newFolder(), '64k', ['true']).status === 0

export function filledDisk(program: string, size: string): string | undefined {
  const folder = newFolder()
  const { stdout, stderr } = inside(folder, size, [process.execPath, program, folder, 'full'])
  return /^full\nsound after [1-9]\d*\n$/.test(stdout) ? undefined : `${stdout}${stderr}`
}
