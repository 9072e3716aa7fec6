// What reaches the station from a pipe or a keyboard: read whole, or refused in one plain sentence.
import { expect, test } from 'vitest'
import { COMMAND_NAMES, parseCommand } from '../../../src/domain/commands.ts'
import { wellFormed } from '../any-commands.ts'

const note = { do: 'note', by: 'M-104', text: 'hydrant 12 frozen' }
const psi = (psi: unknown) => ({ do: 'read-pressure', by: 'M-104', element: 'Y-31', psi })
const care = (on: unknown) => ({ ...wellFormed['record-care'], by: 'M-104', on })
const label = (more: object) => ({
  do: 'add-element',
  by: 'M-104',
  element: { id: 'C-2', kind: 'hood', ...more },
})
const tag = (element: unknown) => ({ ...wellFormed.tag, by: 'M-104', element })
const overlay = (more: object) => ({ do: 'adopt-policy', by: 'M-104', overlay: { name: 'ours', ...more } })
const commands = `The commands are: ${COMMAND_NAMES.join(', ')}.`
const ID = 'must be 1 to 40 letters, digits, "-", "_" or "."'

test.each(COMMAND_NAMES)('%s is read when it is well formed', (name) => {
  const input = { ...wellFormed[name], by: 'M-104', at: '2026-11-24T07:02:11-05:00' }
  expect(parseCommand(JSON.parse(JSON.stringify(input)))).toEqual({ command: input })
})

test.each([[null], [undefined], [[]], [[note]], [7], ['note'], [true], [{}], [{ by: 'M-104' }], [{ do: 5 }]])(
  'what is no command at all is told which commands there are: %j',
  (input) => {
    expect(parseCommand(input)).toEqual({ refused: `A command needs a "do". ${commands}` })
  },
)

test.each(['tagg', '', 'Tag', '__proto__', 'constructor', 'toString'])('there is no command "%s"', (name) => {
  expect(parseCommand({ ...note, do: name })).toEqual({ refused: `"${name}" is not a command. ${commands}` })
})

test.each([
  [{ ...note, by: undefined }, 'note: by is missing.'],
  [{ do: 'note', by: 'M-104' }, 'note: text is missing.'],
  [{ do: 'tag', by: 'M-104' }, 'tag: element is missing.'],
  [{ do: 'add-rig', by: 'M-104' }, 'add-rig: rig is missing.'],
  [{ ...note, text: null }, 'note: text must be text.'],
  [{ ...note, text: ['a'] }, 'note: text must be text.'],
  [{ ...note, text: '' }, 'note: text must not be empty.'],
  [{ ...note, text: ' \t\n ' }, 'note: text must not be empty.'],
  [{ ...note, text: 'x'.repeat(2001) }, 'note: text is longer than 2000 characters.'],
  [{ ...note, by: 5 }, 'note: by must be text.'],
  [{ ...note, at: 5 }, 'note: at must be text.'],
  [
    { ...note, at: 'yesterday' },
    'note: at must be an instant with its offset, as 2026-11-24T07:02:11-05:00.',
  ],
  [
    { ...note, at: '2026-11-24T07:02:11' },
    'note: at must be an instant with its offset, as 2026-11-24T07:02:11-05:00.',
  ],
  [
    { ...note, at: '2023-02-30T07:02:11Z' },
    'note: at must be an instant with its offset, as 2026-11-24T07:02:11-05:00.',
  ],
  [{ ...note, extra: 1 }, 'note: It holds something not asked for: extra.'],
  [{ ...note, 'a\u001b[31m': 1, b: 2 }, 'note: It holds something not asked for: a, b.'],
  [
    { ...note, ...Object.fromEntries('abcdefg'.split('').map((key) => [key, 1])) },
    'note: It holds something not asked for: a, b, c, d, e and 2 more.',
  ],
  [label({ colour: 'red' }), 'add-element: element holds something not asked for: colour.'],
  [
    label({ kind: 'cape' }),
    'add-element: element.kind must be one of: coat-shell, coat-liner, drag-rescue-device, trouser-shell, trouser-liner, helmet, hood, gloves, boots, facepiece, air-pack, cylinder.',
  ],
  [label({ made: '2019-13' }), 'add-element: element.made must be a year and month written YYYY-MM.'],
  [label({ made: '2019-3' }), 'add-element: element.made must be a year and month written YYYY-MM.'],
  [label({ made: '2019-03-01' }), 'add-element: element.made must be a year and month written YYYY-MM.'],
  [care('2023-02-30'), 'record-care: on must be a calendar date written YYYY-MM-DD.'],
  [care('2025-02-29'), 'record-care: on must be a calendar date written YYYY-MM-DD.'],
  [care('2026-13-01'), 'record-care: on must be a calendar date written YYYY-MM-DD.'],
  [care('24/11/2026'), 'record-care: on must be a calendar date written YYYY-MM-DD.'],
  [care(20261124), 'record-care: on must be text.'],
  [psi(-1), 'read-pressure: psi cannot be negative.'],
  [psi(4400.5), 'read-pressure: psi must be a whole number of psi.'],
  [psi('4400'), 'read-pressure: psi must be a number.'],
  [psi(20_001), 'read-pressure: psi is more than any cylinder holds.'],
  [psi(Infinity), 'read-pressure: psi must be a number.'],
  [psi(null), 'read-pressure: psi must be a number.'],
  [tag('C 1041'), `tag: element ${ID}.`],
  [tag('C\u20111041'), `tag: element ${ID}.`],
  [tag('x'.repeat(41)), `tag: element ${ID}.`],
  [tag('x'.repeat(61)), `tag: element ${ID}.`],
  [tag(''), `tag: element ${ID}.`],
  [tag('C-1041\n'), `tag: element ${ID}.`],
  [tag('../C'), `tag: element ${ID}.`],
  [{ ...tag('C-1041'), matter: 'safty' }, 'tag: matter must be one of: safety, compliance.'],
  [{ ...wellFormed['send-away'], by: 'M-104', elements: [] }, 'send-away: elements must name at least one.'],
  [
    { ...wellFormed['send-away'], by: 'M-104', elements: Array(501).fill('C-1') },
    'send-away: elements must name at most 500.',
  ],
  [{ ...wellFormed['send-away'], by: 'M-104', elements: 'C-1041' }, 'send-away: elements must be a list.'],
  [{ do: 'add-rig', by: 'M-104', rig: [] }, 'add-rig: rig must be an object.'],
  [
    { do: 'add-rig', by: 'M-104', rig: { id: 'T2', name: 'Truck 2', minimum: 1.5, seats: [] } },
    'add-rig: rig.minimum must be a whole number.',
  ],
  [
    { do: 'add-rig', by: 'M-104', rig: { id: 'T2', name: 'Truck 2', minimum: 21, seats: [] } },
    'add-rig: rig.minimum must be at most 20.',
  ],
  [
    {
      do: 'add-rig',
      by: 'M-104',
      rig: {
        id: 'T2',
        name: 'Truck 2',
        minimum: 1,
        seats: [{ id: 'T2-1', position: 'Officer', critical: 'yes' }],
      },
    },
    'add-rig: rig.seats.0.critical must be true or false.',
  ],
  [
    { do: 'add-member', by: 'M-104', member: { id: 'M-1', name: 'x', sizes: { shoes: '11' } } },
    'add-member: member.sizes holds something not asked for: shoes.',
  ],
  [{ do: 'acknowledge', by: 'M-104', item: '' }, 'acknowledge: item must not be empty.'],
  [
    { do: 'acknowledge', by: 'M-104', item: 'x'.repeat(81) },
    'acknowledge: item is longer than 80 characters.',
  ],
  [{ ...wellFormed.amend, by: 'M-104', seq: 0 }, 'amend: seq must be at least 1.'],
  [{ ...wellFormed.amend, by: 'M-104', seq: 1.5 }, 'amend: seq must be a whole number.'],
  [{ ...wellFormed.amend, by: 'M-104', with: [] }, 'amend: with must be an object.'],
  [
    overlay({ changes: [{ id: 'wet', limit: 'ten years', reason: 'ours' }] }),
    'adopt-policy: overlay.changes.0.limit must be a duration such as P10Y, P6M or P60D.',
  ],
  [
    overlay({ changes: [{ id: 'wet', off: false, reason: 'ours' }] }),
    'adopt-policy: overlay.changes.0.off must be true.',
  ],
  [
    overlay({
      add: [
        {
          id: 'ours',
          kinds: ['hood'],
          matter: 'safety',
          watch: { since: 'midnight' },
          past: 'due',
          source: { document: 'ours', standing: 'published' },
          why: 'ours',
          reason: 'ours',
        },
      ],
    }),
    'adopt-policy: overlay.add.0.watch is not written in any of the ways it can be.',
  ],
])('what is wrong is said in one plain sentence, with its place: %#', (input, words) => {
  expect(parseCommand(input)).toEqual({ refused: `${words} Nothing was recorded.` })
})

test('no refusal speaks the checker’s own language', () => {
  const odd = [null, [], {}, '', 'x', -1, 0.5, true, { a: { b: [] } }]
  const sentences = COMMAND_NAMES.flatMap((name) => {
    const whole: Record<string, unknown> = { ...wellFormed[name], by: 'M-104' }
    const keys = Object.keys(whole).filter((each) => each !== 'do')
    return keys.flatMap((key) => odd.map((value) => parseCommand({ ...whole, [key]: value })))
  }).flatMap((parsed) => ('refused' in parsed ? [parsed.refused] : []))
  const foreign = /expected|received|Invalid|Too (big|small)|undefined|string|array/
  expect(sentences.length).toBeGreaterThan(200)
  expect(sentences.filter((each) => foreign.test(each))).toEqual([])
})
