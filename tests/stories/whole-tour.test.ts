// A whole tour through the real program on a real pseudo-terminal, from an empty folder to the log that is handed over.
import { parse } from 'csv-parse/sync'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { bayboard, journalOf, lines, shell } from '../cli/run.ts'
import { allOf, eventsOf, hasPty, openBoard, wordsOf, type Board } from './at-the-board.ts'
import { stationFromFiles } from './csv-house.ts'

const station = hasPty ? stationFromFiles() : ''

describe.skipIf(!hasPty)('needs a pseudo-terminal: the tour at the board', () => {
  let board: Board
  beforeAll(async () => {
    board = await openBoard({ station, columns: 80, rows: 24 })
  })
  afterAll(() => board?.close())

  test('the tour is opened by keys, and the first screen then says that the rig cannot ride', async () => {
    await board.start('o', 'Which platoon comes on duty?')
    await board.choose('platoon b', 'Who is its officer?')
    await board.choose('Varga', 'Ada Varga')
    await board.see(/Open tour \d{4}-\d\d-\d\d-B, officer/)
    await board.enter('is open. m seats the crew.')
    await board.see('Engine 6 cannot ride')
    expect(allOf(station, 'tour-opened')).toMatchObject([
      { by: 'M-104', data: { officer: 'M-104', platoon: 'B' } },
    ])
  })

  test('members are seated one riding position at a time', async () => {
    await board.start('m', 'Who rides as Officer (E6-1)?')
    await board.choose('Varga', 'Seat Ada Varga')
    await board.enter('rides as Officer')
    await board.press('down')
    await board.see(/> Driver/)
    await board.start('m', 'Who rides as Driver (E6-2)?')
    await board.choose('Okoro', 'Seat Bo Okoro')
    await board.enter('rides as Driver')
    expect(allOf(station, 'member-seated').map(({ data }) => [data.seat, data.member])).toEqual([
      ['E6-1', 'M-104'],
      ['E6-2', 'M-105'],
    ])
  })

  test('a cylinder that has not been read this tour keeps its riding position unproven', async () => {
    const screen = await board.see(/> Driver.*unproven/)
    expect(screen.join('\n')).toMatch(/Cylinder Y-2: .*pressure/)
  })

  test('roll call: without the pressure there is no answer, with it the next riding position is called', async () => {
    await board.press('home')
    await board.see(/> Officer/)
    await board.start('r', 'Roll call: E6-1')
    await board.enter('Read the gauge of cylinder Y-1')
    expect(allOf(station, 'seat-answered')).toEqual([])
    await board.answer('4400', 'Roll call: E6-2')
    await board.answer('4450', 'Roll call complete: 2 of 2 answered.')
    await board.see('Engine 6 can ride')
    expect(allOf(station, 'pressure-read').map(({ data }) => [data.element, data.psi])).toEqual([
      ['Y-1', 4400],
      ['Y-2', 4450],
    ])
    expect(allOf(station, 'seat-answered').map(({ data }) => data.findings)).toEqual([[], []])
  })

  test('a finding puts the riding position out of service, says why in words, and the rig cannot ride', async () => {
    await board.press('home')
    await board.see(/> Officer/)
    await board.start('f', 'A finding on which element?')
    await board.choose('L-1', /What is wrong with .*coat liner/)
    await board.choose('moisture', 'Which is it?')
    await board.enter('Tag it out of service?')
    await board.see('Engine 6 cannot ride')
    await board.enter('Tagged L-1 out of service.')
    await board.see('Ada Varga can wear 1 of 2')
    await board.press('escape')
    const screen = await board.see(/> Officer\*? +Ada Varga +■ out of service/)
    expect(wordsOf(screen.join('\n'))).toContain('Coat liner L-1: tagged, moisture barrier')
    expect(screen.join('\n')).toContain('Engine 6 cannot ride')
    expect(allOf(station, 'seat-answered').at(-1)?.data.findings).toEqual([
      { element: 'L-1', point: 'moisture barrier', matter: 'safety' },
    ])
  })

  test('the spare of another assembly does not fit; the whole spare coat goes in, and the rig can ride', async () => {
    await board.start('s', 'Swap which element?')
    await board.enter('Ada Varga can wear 1 of 2')
    const spares = await board.see(/> fits: L-9/)
    expect(spares.join('\n')).toMatch(/no.*: L-8/)
    await board.enter('Put coat liner L-9')
    await board.see('Engine 6 can ride')
    await board.enter('swapped in')
    await board.see(/Engine 6 can ride/)
    const swaps = allOf(station, 'element-swapped').map(({ data }) => [data.out, data.in])
    expect(swaps.toSorted()).toEqual([
      ['C-1', 'C-9'],
      ['D-1', 'D-9'],
      ['L-1', 'L-9'],
    ])
  })

  test('an exposure of the whole crew takes the rig out again, every element of it', async () => {
    await board.start('e', 'Who was exposed?')
    await board.enter('To what?')
    await board.choose('combustion', 'At which incident?')
    await board.write('26-0412', 'Exposure to products of combustion at 26-0412: Ada Varga, Bo Okoro?')
    await board.enter('Exposure recorded')
    await board.see('Send what away?')
    await board.press('escape')
    const screen = await board.see('Engine 6 cannot ride: 0 fit')
    expect(wordsOf(screen.join('\n'))).toContain('exposed to products of combustion')
    const [exposure] = allOf(station, 'exposure-recorded')
    expect(exposure?.data).toMatchObject({ seats: ['E6-1', 'E6-2'], incident: '26-0412' })
    expect(exposure?.data.elements).toEqual(expect.arrayContaining(['C-9', 'L-9', 'C-2', 'H-1']))
    expect(exposure?.data.elements).not.toContain('L-1')
  })

  test('a note is written into the log, and the log shows it first', async () => {
    await board.start('n', 'The note')
    await board.write('relief is late by an hour', 'Write this note into the log?')
    await board.enter('Noted.')
    await board.start('l', /The log, newest first/)
    await board.see(/> #\d+ .*relief is late by an hour/)
    expect(allOf(station, 'note-made')).toMatchObject([
      { by: 'M-104', data: { text: 'relief is late by an hour' } },
    ])
    await board.press('escape')
    await board.see('quit')
  })

  test('the tour is handed over to the next officer, with who may not ride and what is open', async () => {
    await board.start('h', 'Hand over to whom?')
    await board.choose('Lindqvist', /Cai Lindqvist .*reads this back/)
    await board.see(/may not ride: /)
    for (let page = 0; page < 4; page += 1) await board.press('page-down')
    await board.see('the end; PgUp goes back')
    await board.press('down')
    await board.see(/> Cai Lindqvist .*has read this back/)
    await board.enter(/hands tour .* over to Cai Lindqvist/)
    await board.enter('is handed over')
    expect(allOf(station, 'tour-handed-over')).toMatchObject([
      { by: 'M-104', data: { from: 'M-104', to: 'M-207', readBack: true } },
    ])
  })

  test('the paper comes with the hand-over; exported as text the log holds the whole story and the head hash', async () => {
    await board.see('Its log is in')
    await board.start('x', 'Export the readiness log')
    await board.enter('Export it as text?')
    await board.enter('Exported to')
    const names = readdirSync(join(station, 'exports')).toSorted()
    expect(names.map((each) => each.split('.').at(-1))).toEqual(['pdf', 'txt'])
    const log = wordsOf(readFileSync(join(station, 'exports', names[1]!), 'utf8'))
    const swap = allOf(station, 'element-swapped').find(({ data }) => data.in === 'L-9')!
    expect(log).toMatch(/oat liner L-1: moisture barrier/)
    expect(log).toMatch(/tagged, moisture barrier/)
    expect(log).toMatch(
      new RegExp(
        `${swap.at.slice(11, 16)} #${swap.seq} by .*?Swapped coat liner L-9 in at E6-1, L-1 out: tagged, moisture barrier`,
      ),
    )
    expect(log).toContain('products of combustion')
    expect(log).toContain('26-0412')
    expect(log).toContain('relief is late by an hour')
    expect(log).toMatch(/Open items/)
    expect(log).toContain(
      eventsOf(station).length ? JSON.parse(lines(journalOf(station)).at(-1)!).hash : 'no journal',
    )
  })

  test('q leaves with 0 and gives the terminal back', async () => {
    expect(await board.leave()).toMatchObject({ code: 0 })
    expect(board.modes()).toEqual({
      alternateScreen: false,
      cursorHidden: false,
      autowrap: true,
      bracketedPaste: false,
      synchronised: false,
    })
  })

  test('afterwards the journal verifies, and every line has the hash that sha256sum makes of it', () => {
    expect(bayboard(['verify'], { station })).toMatchObject({ status: 0, stderr: '' })
    const kept = lines(journalOf(station)).map((line) => (JSON.parse(line) as { hash: string }).hash)
    const made = shell(
      `cd "${station}" && for n in $(seq ${kept.length}); do sed -n "$n"p journal.jsonl | head -c -76 | sha256sum; done`,
    )
    expect(lines(made.stdout).map((line) => line.split(' ')[0])).toEqual(kept)
  })

  test('the CSV of the tour is read back by another reader of CSV, cell for cell in every row', () => {
    const { stdout } = bayboard(['export', '--format', 'csv'], { station })
    const rows: Record<string, string>[] = parse(stdout, { columns: true })
    expect(rows.filter((row) => row['element'] === 'L-1').map((row) => row['section'])).toContain('findings')
    expect(rows.some((row) => row['section'] === 'swaps' && row['element'] === 'L-9')).toBe(true)
  })

  test('the JSON of the tour is one document that names the tour and its findings', () => {
    const { stdout } = bayboard(['export', '--format', 'json'], { station })
    const log = JSON.parse(stdout) as { tour: { id: string }; findings: { element: string }[] }
    expect(log.tour.id).toBe(allOf(station, 'tour-opened')[0]?.data.tour)
    expect(log.findings.map((each) => each.element)).toEqual(['L-1'])
  })
})
