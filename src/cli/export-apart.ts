// Exports a readiness log by the program itself, run beside the board: years of journal take seconds to read, and keys are
// answered meanwhile. What it says is what `bayboard export` says.
import { execFile } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import { dirname } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Exported } from '../tui/said-after.ts'
import type { Format } from './export.ts'

/** A shorter journal is read sooner than another process starts. */
export const LONG = 20_000

/** Where the program is once it is built: beside the script that the board is. */
const PROGRAM = new URL('./bayboard.js', import.meta.url)

interface Wanted {
  folder: string
  tour: string
  format: Format
  path: string
}

/** Undefined where the process could not even be started: then nothing was written. */
export function exportApart(
  { folder, tour, format, path }: Wanted,
  program = PROGRAM,
): Promise<Exported | undefined> {
  // A name given with an equals sign may begin with a dash.
  const asks = [`--station=${folder}`, `--tour=${tour}`, `--format=${format}`, `--out=${path}`, '--force']
  const args = [fileURLToPath(program), 'export', ...asks]
  return new Promise((resolve) => {
    try {
      mkdirSync(dirname(path), { recursive: true })
    } catch {
      return resolve(undefined)
    }
    // The board writes its exports with every sign, whatever its terminal can show.
    execFile(process.execPath, args, { env: { ...process.env, LC_ALL: 'C.UTF-8' } }, (error, _said, why) => {
      if (!error) return resolve({ path })
      const sentence = why.trim().replace(/^bayboard: /, '')
      const isBegun = typeof error.code === 'number' || error.signal
      resolve(isBegun ? { refused: sentence || 'The log was not written: its making was ended.' } : undefined)
    })
  })
}
