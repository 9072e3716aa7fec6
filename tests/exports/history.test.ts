// Tests of the history of one element, member, riding position or rig.
import { describe, expect, test } from 'vitest'
import { aboutOf } from '../../src/domain/about.ts'
import { cardText, historyLines, historyText } from '../../src/exports/history.ts'
import { factsOf, KINDS, pointsOf } from '../../src/domain/kinds.ts'
import { taughtOf } from '../../src/exports/taught.ts'
import { UNSAFE } from './made.ts'
import { instant, type Recorder } from './recorder.ts'
import { fullTour, house } from './tours.ts'

const aboutIn = ({ events }: Recorder, id: string) => events.filter((each) => aboutOf(each).includes(id))
const historyOf = (log: Recorder, id: string): string =>
  historyText(aboutIn(log, id), log.state, id, instant('26 08:00'))
/** Without what the rules say: the parts stand apart by an empty line. */
const withoutRules = (text: string): string =>
  `${text
    .split('\n\n')
    .filter((part) => !/^(What the rules|The rules)/.test(part))
    .join('\n\n')
    .trimEnd()}\n`

describe('history', () => {
  test('of an element begins with its card and tells all that happened in order', () => {
    expect(withoutRules(historyOf(fullTour(), 'B-1'))).toBe(`\
Boots B-1
  Label       size 11D, made 2024-05, edition 1971-2018
  Custody     issued
  Issued to   A. Varga (M-104), first issued 1 Oct 2026
  Tags open   none

2026-11-01 09:00  #23  by setup  Added boots B-1.
2026-11-01 09:00  #24  by setup  Issued boots B-1 to A. Varga (M-104) on 1 Oct 2026.
2026-11-24 07:10  #39  by A. Varga (M-104)  E6-1 answered by A. Varga (M-104): boots B-1: sole separation (safety).
2026-11-24 07:15  #41  by A. Varga (M-104)  Swapped boots S-900 in at E6-1, B-1 out: sole separation.
2026-11-24 10:00  #46  by A. Varga (M-104)  Repair of boots B-1 on 24 Nov 2026 by Brook Works, serviceable.
2026-11-24 10:05  #47  by A. Varga (M-104)  Lifted the tag on boots B-1 (sole separation): sole glued and pressed.
2026-11-24 10:06  #48  by A. Varga (M-104)  Swapped back boots B-1 at E6-1, S-900 out.
`)
  })

  test.each([
    ['H-1', '  Tag open    cracked shell (safety), 2026-11-24 06:40, by A. Varga (M-104)'],
    ['C-1', '  Custody     away at North Wash for advanced cleaning, since 2026-11-24 11:00'],
    ['N-1', '  Custody     held as evidence: injury on 22 Nov, since 2026-11-24 12:10'],
    ['S-900', '  Custody     retired: heel worn through, since 2026-11-24 12:30; disposal: cut up'],
    ['S-901', '  Label       month of manufacture not known'],
    ['M-104', '  Fit test    Model-1 M on 20 Nov 2026: pass'],
    ['M-207', '  Rides now   nowhere'],
    ['E6-2', '  Rides now   nobody'],
    ['E6', '  Positions   E6-1, E6-2'],
  ])('the card of %s says how it stands now', (id, line) => {
    expect(historyOf(fullTour(), id).split('\n')).toContain(line)
  })

  test('of an element says each rule that looks at it, with its arithmetic and its source', () => {
    const text = historyOf(fullTour(), 'B-1')
    expect(text).toContain(`\
structural service life: ready, 10 years from manufacture runs to 30 Apr 2034.
  counts from 1 May 2024 (made 2024-05), limit 10 years, falls on 1 May 2034, warns 60 days ahead; past it: expired (compliance).
  Ten years from the month on the label, whether it was worn or lay in store.
  Source: NFPA 1851, as public pages report it, 2020, retirement, 10 years from manufacture (published).
`)
  })

  test('a spare in use says where it stands in', () => {
    const log = house()
    const tour = { tour: 'T-1', platoon: 'B', officer: 'M-104', on: '2026-11-24' }
    log.record('24 07:00', 'M-104', { do: 'open-tour', ...tour })
    log.record('24 07:01', 'M-104', { do: 'seat-member', seat: 'E6-1', member: 'M-104' })
    log.record('24 07:02', 'M-104', { do: 'swap', seat: 'E6-1', out: 'B-1', in: 'S-900' })
    expect(historyOf(log, 'S-900')).toContain('  Stands in   at E6-1, with A. Varga (M-104)\n')
  })

  test('every event about an id has its line, and a line that speaks of many names the one asked for', () => {
    const log = fullTour()
    for (const id of ['Y-1', 'S-902', 'M-104', 'E6-1', '2026-11-24-B']) {
      const events = aboutIn(log, id)
      const lines = historyLines(events, log.state, id)
      expect(lines.map((each) => each.seq)).toEqual(events.map((each) => each.seq))
      for (const { words } of lines) expect(words).toContain(id)
    }
    const exposure = historyLines(aboutIn(log, 'Y-1'), log.state, 'Y-1').find(
      (each) => each.type === 'exposure-recorded',
    )
    expect(exposure!.words).toMatch(/and 7 more\. \(Y-1 is one of these\.\)$/)
  })

  test('what an import brought to one holder is told of them, and nobody is said to be one of the gear', () => {
    const log = house()
    const bring = (id: string, kind: string, issuedTo?: string) => ({
      id,
      kind,
      ...(issuedTo && { issuedTo }),
    })
    const elements = [
      bring('H-7', 'helmet', 'M-207'),
      bring('Y-7', 'cylinder', 'E6-2'),
      bring('H-8', 'helmet'),
      bring('N-7', 'hood', 'M-207'),
    ]
    const members = [{ id: 'M-300', name: 'D. Ilves' }]
    log.record('24 06:30', 'setup', { do: 'import-gear', file: 'gear.csv', members, elements })
    const told = (id: string) => historyLines(aboutIn(log, id), log.state, id).at(-1)!.words
    const all = 'Imported 1 member and 4 elements from gear.csv.'
    expect(['M-207', 'E6-2', 'H-7', 'H-8', 'M-300'].map(told)).toEqual([
      `${all} Issued to M-207: H-7, N-7`,
      `${all} Issued to E6-2: Y-7`,
      `${all} H-7: issued to M-207`,
      `${all} (H-8 is one of these.)`,
      `${all} (M-300 is one of these.)`,
    ])
  })

  test('a tour has no card, only its events', () => {
    expect(historyOf(fullTour(), '2026-11-24-B')).toMatch(
      /^2026-11-24 07:00 {2}#35 {2}by A\. Varga \(M-104\) {2}Opened tour/,
    )
  })

  test('nothing known is said so', () => {
    expect(historyText([], house().state, 'X-9', instant('26 08:00'))).toBe(
      'The journal says nothing of it.\n',
    )
  })

  test('holds no control or bidirectional mark, even from a journal that held one', () => {
    const log = fullTour()
    const events = aboutIn(log, 'B-1').map((each) =>
      each.type === 'care-recorded'
        ? { ...each, by: 'x\u001b[2J', data: { ...each.data, who: 'Br\u202eook' } }
        : each,
    )
    const text = historyText(events, log.state, 'B-1', instant('26 08:00'))
    expect(text).toContain('by x  Repair of boots B-1 on 24 Nov 2026 by Brook, serviceable.')
    expect(text).not.toMatch(UNSAFE)
  })
})

describe('the card at the board', () => {
  const cardOf = (log: Recorder, id: string): string =>
    cardText(aboutIn(log, id), log.state, id, instant('26 08:00'))
  const headings = (text: string): string[] => text.split('\n\n').map((part) => part.split('\n')[0]!)

  test('of an element says what it is, what is against it, what it is for, what to look at, what it cannot do, what happened', () => {
    expect(headings(cardOf(fullTour(), 'H-1'))).toEqual([
      'Helmet H-1',
      'What the rules have against it, the worst first:',
      'What a helmet is for:',
      'What to look at:',
      'What it cannot do:',
      'What happened, the newest first:',
      'The rules that have nothing against it:',
    ])
  })

  test.each(KINDS)('of a %s tells each of its parts and each of its points', (kind) => {
    const text = taughtOf(kind).flat().join('\n')
    for (const part of factsOf(kind).parts) expect(text).toContain(`: ${part.for}.`)
    for (const point of pointsOf(kind)) expect(text).toContain(point)
    for (const { source } of [...factsOf(kind).look, ...factsOf(kind).cannot])
      if (source) expect(text).toContain(`[${source}]`)
  })

  test('tells the same events as the history, the newest first', () => {
    const log = fullTour()
    const numbers = (text: string): number[] =>
      [...text.matchAll(/^\d{4}-\d\d-\d\d \d\d:\d\d {2}#(\d+)/gm)].map((each) => Number(each[1]))
    for (const id of ['B-1', 'M-104', 'E6-1'])
      expect(numbers(cardOf(log, id))).toEqual(numbers(historyOf(log, id)).toReversed())
  })

  test('of a layer names the layers that are worn with it, and of a member all their gear', () => {
    const log = house()
    expect(cardOf(log, 'C-1')).toContain('  Worn with   coat liner L-1, drag rescue device D-1\n')
    expect(cardOf(log, 'M-104')).toMatch(/^ {2}Gear {8}coat shell C-1, .*boots B-1/m)
  })
})
