// The demonstration's file: made by its script, of a house's size, complete, and plainly invented.
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { readDemo } from '../src/demo.ts'
import { COMMAND_NAMES } from '../src/domain/commands.ts'
import { TEXT, usual } from './demo-station.ts'

const SCRIPT = fileURLToPath(new URL('../scripts/make-demo.mjs', import.meta.url))

describe('the file', () => {
  it('is what the script writes, byte for byte', () => {
    const folder = mkdtempSync(join(tmpdir(), 'bayboard-demo-'))
    const out = join(folder, 'station.jsonl')
    execFileSync(process.execPath, [SCRIPT, out])
    const again = readFileSync(out, 'utf8')
    rmSync(folder, { recursive: true })
    expect(again === TEXT).toBe(true)
  })

  it('is a house of its size: two rigs, a full crew three times over, a full rack', () => {
    const { state, demo } = usual()
    const elements = [...state.elements.values()]
    expect(state.rigs.size).toBe(2)
    expect(state.members.size).toBe(33)
    expect(elements.length).toBeGreaterThanOrEqual(350)
    expect(elements.filter((each) => each.custody.where === 'rack').length).toBeGreaterThanOrEqual(50)
    expect(elements.filter((each) => each.custody.where === 'retired').length).toBeGreaterThanOrEqual(3)
    expect(demo.commands.length).toBeGreaterThanOrEqual(2000)
    expect(demo.commands.length).toBeLessThanOrEqual(3500)
    expect(TEXT.length).toBeLessThan(600_000)
  })

  it('uses every command there is, but sets no PIN that whoever tries it would not know', () => {
    const used = new Set(usual().demo.commands.map((command) => command.do))
    expect(COMMAND_NAMES.filter((name) => !used.has(name))).toEqual(['set-pin', 'clear-pin'])
  })

  it('amends the reading it means, and the books hold the mended figure', () => {
    const { demo } = usual()
    const amend = demo.commands.find((command) => command.do === 'amend')!
    expect(demo.commands[amend.seq - 2]).toMatchObject({ do: 'read-pressure', psi: 445 })
    const { psi } = usual()
      .state.elements.get('Y-403')!
      .readings.find((each) => each.seq === amend.seq)!
    expect(psi).toBe(4450)
  })

  it('says that it is invented, in the station, its makers and wherever gear is sent', () => {
    const { demo, state } = usual()
    expect(demo.station).toMatchObject({ invented: true, name: 'Station 9 (demonstration)' })
    expect(TEXT.split('\n')[0]).toContain('invented for demonstration')
    expect([...state.elements.values()].filter((each) => !each.maker?.includes('Invented'))).toEqual([])
    const sent = demo.commands.flatMap((command) => (command.do === 'send-away' ? command.to : []))
    expect(sent.filter((to) => !to.includes('(invented)'))).toEqual([])
  })

  it('is refused with the line when a line of it is not a command', () => {
    const [header] = TEXT.split('\n')
    const line = '{"when":{"minutesAgo":1},"command":{"do":"fly","by":"setup"}}'
    expect(() => readDemo(`${header}\n${line}\n`, 0, 'UTC')).toThrow('Line 2 of the demonstration')
  })
})
