// The measurements run and give figures; what the figures are is for people to read, never for a test.
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import type { Measured } from '../../scripts/bench/table.ts'

test('a quick run measures the rows asked for beside their baselines and writes them down', () => {
  const folder = mkdtempSync(join(tmpdir(), 'bayboard-bench-run-'))
  try {
    const json = join(folder, 'measured.json')
    const args = ['scripts/bench.mjs', 'verify', 'replay', 'append', 'assess', '--quick', '--json', json]
    const table = execFileSync(process.execPath, args, {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
      env: { ...process.env, TMPDIR: folder },
    })
    const { measured } = JSON.parse(readFileSync(json, 'utf8')) as { measured: Measured[] }
    expect(measured.map((each) => each.row)).toEqual(['verify', 'replay', 'append', 'assess'])
    for (const each of measured) {
      expect(each.ours!.median, each.row).toBeGreaterThan(0)
      expect(table).toContain(each.what)
      if (each.baseline) expect(each.ratio, each.row).toBeGreaterThan(0)
      expect(each.reached, `${each.row}: ${each.aim}`).toBeTypeOf('boolean')
    }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
})
