// Runs a program of the tests as a real process on a machine set to another time zone; it must never fake a zone.
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'

export interface Program {
  /** What it printed; its first line must be the machine's offset in minutes, which comes back apart. */
  runUnder(zone: string): { offset: number; said: string }
  remove(): void
}

export async function programUnderZones(entry: string): Promise<Program> {
  const folder = mkdtempSync(join(tmpdir(), 'bayboard-zones-'))
  const program = join(folder, 'program.mjs')
  await build({
    entryPoints: [entry],
    outfile: program,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
  })
  return {
    runUnder(zone) {
      const env = { ...process.env, TZ: zone }
      const out = execFileSync(process.execPath, [program], { env, encoding: 'utf8', maxBuffer: 1e8 })
      const end = out.indexOf('\n')
      return { offset: Number(out.slice(0, end)), said: out.slice(end + 1) }
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  }
}
