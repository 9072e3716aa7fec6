// That no rule depends on the time zone of the machine, shown with real processes started in others.
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { programUnderZones, type Program } from '../machine-zone.ts'
import { CASES, sayCases } from './cases.ts'

let program: Program
beforeAll(async () => {
  program = await programUnderZones(join(import.meta.dirname, 'say-cases.ts'))
})
afterAll(() => program.remove())

describe('the whole table of rules', () => {
  it.each([
    ['America/Sao_Paulo', 180],
    ['Asia/Tokyo', -540],
  ])('says the same on a machine in %s', (zone, offset) => {
    const there = program.runUnder(zone)
    // The process really ran in that zone.
    expect(there.offset).toBe(offset)
    expect(there.said.split('\n')).toHaveLength(CASES.length)
    expect(there.said).toBe(sayCases())
  })
})
