// The verdicts that the built program keeps for its next start are known by the rules that gave them, the same in all its parts.
import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { expect, test } from 'vitest'
import { newPlace, bayboard, PROGRAM, recorded } from './run.ts'

test('what a subcommand kept is known by a sum of the rules, and the board goes by the same', () => {
  const station = join(newPlace(), 'station')
  expect(bayboard(['demo', station, '--no-open']).status).toBe(0)
  recorded(station, [{ do: 'note', by: 'M-901', text: 'So that the books are kept.' }])
  const [near] = JSON.parse(readFileSync(join(station, 'snapshot.json'), 'utf8')).state
  const { rules, verdicts } = near.judged
  expect(rules).toMatch(/^[0-9a-f]{32}$/)
  expect(verdicts.days).toHaveLength(2)
  expect(verdicts.seats.length).toBeGreaterThan(3)
  expect(readFileSync(join(dirname(PROGRAM), 'board.cjs'), 'latin1')).toContain(rules)
})
