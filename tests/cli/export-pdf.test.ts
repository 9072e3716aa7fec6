// `bayboard export --format pdf`: the readiness log to print and sign, as a file or through a pipe, never into a terminal.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import type { ReadinessLog } from '../../src/exports/readiness-log.ts'
import { readQr } from '../paper/read-codes.ts'
import { canvas, pictureOf, readPdf, squeezed, wordsOf } from '../paper/read-pdf.ts'
import { loadPty, openTerminal } from '../pty.ts'
import { bayboard, newPlace, PROGRAM, recorded, shell } from './run.ts'
import { answers, fitStation } from './two-seats.ts'

let station = ''
beforeAll(() => {
  station = fitStation(answers('E6-1', [{ element: 'H-1', point: 'cracked', matter: 'safety' }]))
})
const exported = (...args: string[]) => bayboard(['export', '--format', 'pdf', ...args], { station })

describe('the readiness log as PDF', () => {
  test('holds every seat, reason, finding and event that the JSON of the same tour holds', async () => {
    const out = join(newPlace(), 'log.pdf')
    expect(exported('--out', out)).toEqual({ status: 0, stdout: `Wrote ${out}\n`, stderr: '' })
    const words = wordsOf(await readPdf(readFileSync(out)))
    const log = JSON.parse(bayboard(['export', '--format', 'json'], { station }).stdout) as ReadinessLog
    const seats = log.board.rigs.flatMap((rig) => rig.seats)
    const said = [
      ...seats.flatMap((seat) => [seat.id, ...seat.reasons.map((each) => each.text)]),
      ...log.findings.map((each) => each.words),
      ...log.entries.map((each) => each.words),
      log.journal.head,
    ]
    expect(said.length).toBeGreaterThan(8)
    expect(said.filter((each) => !words.includes(squeezed(each)))).toEqual([])
  })

  test('goes through a pipe byte for byte', () => {
    const { status, stdout } = shell(`bayboard export --format pdf --station ${station} | head -c 8`)
    expect({ status, stdout }).toEqual({ status: 0, stdout: '%PDF-1.3' })
  })

  test('is printed on A4 where that is asked for, on letter by the time zone of the station', async () => {
    const out = join(newPlace(), 'log.pdf')
    for (const [args, size] of [
      [
        ['--paper', 'a4'],
        [595.28, 841.89],
      ],
      [['--force'], [612, 792]],
    ] as const) {
      exported('--out', out, ...args)
      const [page] = await readPdf(readFileSync(out))
      expect([page!.width, page!.height]).toEqual(size)
    }
  })

  test('on a paper there is not is wrong usage, and nothing is written', () => {
    const out = join(newPlace(), 'log.pdf')
    expect(exported('--paper', 'a5', '--out', out)).toEqual({
      status: 2,
      stdout: '',
      stderr: 'bayboard: There is no paper a5 here. Choose one of: a4, letter.\n',
    })
    expect(existsSync(out)).toBe(false)
  })

  test.runIf(loadPty())('is not poured into a terminal', async () => {
    const args = [PROGRAM, 'export', '--format', 'pdf', '--station', station]
    const terminal = await openTerminal({ command: process.execPath, args, columns: 120 })
    const { code } = await terminal.exit
    expect(terminal.screen().join('\n')).toContain('A PDF cannot be read in a terminal.')
    expect(code).toBe(2)
  })
})

test.runIf(canvas)(
  'the square code of a tour handed over is its seal: kept elsewhere, it checks the journal',
  async () => {
    recorded(station, [{ do: 'hand-over', by: 'M-104', to: 'M-105' }])
    const place = newPlace()
    const out = join(place, 'log.pdf')
    const [name] = readdirSync(join(station, 'seals'))
    const sealed = readFileSync(join(station, 'seals', name!), 'utf8')
    exported('--out', out)
    const note = readQr(await pictureOf(readFileSync(out), 1, 4))
    expect(note).toBe(sealed)
    writeFileSync(join(place, 'photographed.note'), note!)
    const against = ['verify', '--against', join(place, 'photographed.note')]
    expect(bayboard(against, { station }).status).toBe(0)
    writeFileSync(
      join(place, 'forged.note'),
      note!.replace(/^(\d+)$/m, (count) => `${Number(count) - 1}`),
    )
    expect(bayboard(['verify', '--against', join(place, 'forged.note')], { station }).status).toBe(1)
    const words = wordsOf(await readPdf(readFileSync(out)))
    for (const line of sealed.split('\n')) expect(words).toContain(squeezed(line))
  },
)
