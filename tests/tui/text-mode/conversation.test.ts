// Without a screen the whole tour can be worked by lines: numbered choices, whole words, and nothing that is recorded by accident.
import { describe, expect, test } from 'vitest'
import { garment, tags } from '../../domain/fit-crew.ts'
import { ACTIONS, LOOKING } from '../../../src/tui/keymap.ts'
import { bench } from '../bench.ts'
import { demonstration, fitEngine, noRig, nobodySeated } from '../stations.ts'
import { converse } from './converse.ts'

test('the first words say who may not ride and why, each riding position numbered under its rig', async () => {
  const { heard } = await converse(demonstration())
  expect(heard).toContain('5 may not ride; 1 unfilled. Engine 9 and Ladder 9 cannot ride.')
  const irons = heard.find((line) => /^\d+\. Irons/.test(line))
  expect(irons).toBe(
    '9. Irons, Priya Halvering: out of service, answered. Coat liner L-9091: tagged, torn seam at the left armhole.',
  )
  expect(heard).toContain('Ladder 9 cannot ride: 3 fit, 4 needed.')
})

test('nothing that is heard holds an escape, a sign without its word, or columns', async () => {
  const keys = [
    '?',
    'more',
    'back',
    'l',
    'back',
    '.',
    'back',
    'r',
    'back',
    '/',
    'back',
    's',
    'back',
    '+',
    'back',
    'K-9071',
    'back',
  ]
  const { text } = await converse(demonstration(), ...keys)
  expect(text).toMatch(/^[ -~\n]*$/)
  expect(text).not.toMatch(/ {2,}|[#=]{2}|(^| )[#=]( |$)/m)
  expect(text).toContain('gloves: 5 with only one')
  expect(text).not.toMatch(/[#OX!.] (out of service|missing|expired|unproven|due|ready)\b/)
})

test('the plan is heard with its reasons, and taken whole by the whole word yes', async () => {
  const station = fitEngine(tags('HE-1'), tags('BO-2'), ...garment('helmet', '9'))
  const { commands, heard } = await converse(station, 'g', 'a', 'yes')
  expect(heard).toContain('E6-1 Officer, A. Varga: becomes fit.')
  expect(heard).toContain('1. helmet HE-9 in; HE-1 out. why: the only one that fits; in date to 1 Mar 2027')
  expect(heard).toContain('2. Boots BO-2: tagged, torn seam. The rack has no spare boots.')
  expect(commands.map((each) => each.do)).toEqual(['swap'])
})

test('a tag and a swap by numbers and the whole word yes', async () => {
  const station = fitEngine(...garment('helmet', '9'))
  const { commands, heard } = await converse(
    station,
    '1',
    't',
    'helmet',
    '1',
    '1',
    '1',
    'yes',
    's',
    '1',
    '1',
    'yes',
  )
  expect(commands.map((each) => each.do)).toEqual(['tag', 'swap'])
  expect(commands[1]).toMatchObject({ seat: 'E6-1', out: 'HE-1', in: 'HE-9' })
  expect(heard).toContain('A. Varga may not ride: Helmet HE-1: tagged, crack, crazing or dent.')
})

test('the roll is called to its end: ok answers, psi 4400 is the pressure', async () => {
  const { commands, text } = await converse(fitEngine(), 'r', 'ok', 'psi 4400')
  expect(commands.map((each) => each.do)).toEqual(['answer', 'read-pressure', 'answer'])
  expect(text).toContain('Roll call complete')
})

test('ok is offered at roll call only where it answers: a gauge that is unread comes first', async () => {
  const read = await converse(fitEngine(), 'r')
  expect(read.text).toContain('\nok answers: all serviceable. psi 4400 is its pressure and answers. f is')
  const unread = await converse(demonstration(), 'r')
  expect(unread.text).toContain('\npsi 4400 is its pressure and answers: all serviceable. f is')
  expect(unread.text).not.toContain('ok answers')
})

test('a mistyped position number at roll call is never a pressure; a low one said again is recorded', async () => {
  const bare = await converse(fitEngine(), 'r', '10', 'yes', '')
  expect(bare.commands).toEqual([])
  expect(bare.text).toContain('Nothing was recorded. If 10 is the pressure, type: psi 10')
  const once = await converse(fitEngine(), 'r', 'psi 10', 'psi 4400')
  expect(once.commands[0]).toMatchObject({ do: 'read-pressure', psi: 4400 })
  const low = await converse(fitEngine(), 'r', 'psi 10', 'psi 10')
  expect(low.text).toContain('say the same reading again')
  expect(low.text).not.toContain('Enter again')
  expect(low.commands[0]).toMatchObject({ do: 'read-pressure', psi: 10 })
})

test('ok after a doubtful pressure neither records it nor loses it: it says what does', async () => {
  const { commands, text } = await converse(fitEngine(), 'r', 'psi 10', 'ok', 'next')
  expect(commands).toEqual([])
  expect(text).toContain('10 psi is not recorded yet: psi 10 records it, back takes it away.')
  expect(text).toContain('10 psi is typed and not recorded yet: the same reading said again records it')
})

test('a tour is opened while none is, by numbers alone', async () => {
  const { commands } = await converse(nobodySeated(), 'o', '1', '1', 'yes')
  expect(commands[0]).toMatchObject({ do: 'open-tour', platoon: 'B' })
})

describe('nothing is recorded', () => {
  const untilConfirm = ['t', '1', '1', '1']
  test.each([
    ['an empty line', ''],
    ['the letter y', 'y'],
    ['a number', '1'],
    ['ok', 'ok'],
    ['a label that was scanned', 'HE-1'],
    ['the key that began it', 't'],
    ['quit', 'quit'],
  ])('by %s where yes is asked for', async (_, line) => {
    const { commands } = await converse(fitEngine(), ...untilConfirm, line)
    expect(commands).toEqual([])
  })
  test('by a scan where words are asked for, or at roll call', async () => {
    const { commands, text } = await converse(fitEngine(), 'n', 'HE-1', 'b', 'r', 'HE-1')
    expect(commands).toEqual([])
    expect(text).toContain('Read "HE-1": a label is not an answer. If these are your own words, type /HE-1')
  })
  test('and the end of the input leaves the board', async () => {
    const { commands, heard } = await converse(fitEngine(), ...untilConfirm)
    expect(commands).toEqual([])
    expect(heard.at(-2)).toBe('Left. Everything accepted is on disk.')
  })
})

test('the plot of deadlines is told as its counts, and a number shows a card', async () => {
  const { heard } = await converse(demonstration(), '.', '1')
  expect(heard.find((line) => line.startsWith('By month: '))).toMatch(/Dec 2026 \d+/)
  const first = heard.find((line) => line.startsWith('1. past, '))!
  expect(heard).toContain(`Card of ${/ ([A-Z]+-\d+),/.exec(first)![1]}`)
})

test('a slash takes words as they are, so a note may say back', async () => {
  const { commands } = await converse(fitEngine(), 'n', '/back', 'yes')
  expect(commands).toEqual([{ do: 'note', by: 'M-104', text: 'back' }])
})

test('a scan on the board is looked up; an unknown one says what was read', async () => {
  const { heard } = await converse(fitEngine(), 'HE-1', 'b', 'ZZ-404')
  expect(heard).toContain('Card of HE-1')
  expect(heard.join('\n')).toContain('Nothing here has "ZZ-404" in an id, a name or a serial.')
})

test('more reads on where a list is long, and a number from further down still means what was heard', async () => {
  const { heard } = await converse(demonstration(), '/', 'more', 'more', '33')
  const label = heard.find((line) => line.startsWith('33. '))!
  const id = /\(([^)]+)\)/.exec(label)?.[1] ?? label.split(/[ ,]/)[1]
  expect(heard).toContain(`Card of ${id}`)
})

test('a refusal is said without reading the whole list again; an empty line reads it again', async () => {
  const { heard } = await converse(fitEngine(), 'b-key', '', '')
  expect(heard.filter((line) => line.startsWith('1. Officer'))).toHaveLength(3)
  const refused = await converse(fitEngine(), 't', '1', '1', '1', 'maybe')
  expect(
    refused.heard.filter((line) => line === 'Nothing was done. Only the whole word yes does it.'),
  ).toHaveLength(1)
})

test.each([
  ['the demonstration', demonstration],
  ['an engine that is fit', fitEngine],
  ['an engine with a tagged helmet and a spare', () => fitEngine(...garment('helmet', '9'), tags('HE-1'))],
  ['a house before its first tour', nobodySeated],
  ['a station without a rig', noRig],
])('%s: every key of the board does here what it does on the screen', async (_, station) => {
  for (const { key, label } of [...ACTIONS, ...LOOKING].filter(
    (each) => each.key !== 'q' && each.key !== '-',
  )) {
    const screen = bench(station(), { unicode: false }).type(key)
    // b goes back here: own gear is swapped back by the words alone.
    const byKey = await converse(station(), key === 'b' ? label : key)
    const byWords = await converse(station(), label)
    // The same question, the same refusal, or the same page.
    const { ui } = screen
    const said = ui.message?.text
    if (said) expect(byKey.text, key).toContain(said)
    else expect(byKey.text, key).not.toContain('is not a key of the board')
    expect(byWords.text, label).toBe(byKey.text)
  }
})
