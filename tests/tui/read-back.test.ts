// Reading back what was left open: one key an item, each on a page of its own, and a held key takes on nothing of it.
import { expect, test } from 'vitest'
import { garment, tags } from '../domain/fit-crew.ts'
import { bench, type Bench } from './bench.ts'
import { fitEngine } from './stations.ts'

const LEFT = ['HE-1', 'HO-1', 'GL-1', 'HE-2', 'HO-2', 'GL-2']
const board = (): Bench => bench(fitEngine(...LEFT.map((each) => tags(each)))).type('a')
const taken = ({ events }: Bench) => events.flatMap((each) => ('item' in each.data ? each.data.item : []))

test('six open items are read and taken on with one key each and three for the last look', () => {
  const made = board()
  for (const [at, id] of LEFT.entries()) {
    expect(made.text()).toContain(`Open item ${at + 1} of 6 not yet acknowledged.`)
    expect(made.text()).toContain(`${id} is out of service: torn seam.`)
    expect(made.events).toEqual([])
    made.press('enter')
  }
  expect(made.text()).toContain('You take on 6 open items.')
  made.press('down', 'enter', 'enter')
  expect(taken(made)).toEqual(LEFT.map((id) => `tag-${id}`))
  expect(made.ui.message!.text).toBe('Acknowledged: 6 open items. None is left.')
})

test('a held Enter reads on to the end and takes nothing on; Esc goes back through what was read', () => {
  const made = board().press(...Array.from({ length: 30 }, () => 'enter' as const))
  expect([made.ui.screen, made.events]).toEqual(['sheet', []])
  expect(made.ui.message!.text).toBe('Ask first; Esc goes back.')
  expect(made.press('escape').text()).toContain('Open item 6 of 6')
})

test('an item left for later stays unread, and stopping takes on only what was read', () => {
  const made = board().press('enter', 'down', 'enter', 'enter', 'end', 'enter', 'down', 'enter', 'enter')
  expect(taken(made)).toEqual(['tag-HE-1', 'tag-GL-1'])
  expect(made.ui.message!.text).toBe('Acknowledged: 2 open items. 4 left.')
  expect(made.type('a').text()).toContain('Open item 1 of 4')
})

test('where every item was left for later, nothing can be taken on', () => {
  const made = bench(fitEngine(tags('HE-1')))
    .type('a')
    .press('down', 'enter')
  expect(made.text()).toContain('Nothing was taken on. Esc goes back.')
  expect(made.press('enter').events).toEqual([])
})

test('a coat that was swapped is one item to read, and each of its layers is taken on', () => {
  const spares = (['coat-shell', 'coat-liner', 'drag-rescue-device'] as const).flatMap((kind) =>
    garment(kind, '9'),
  )
  const made = bench(fitEngine(...spares, tags('CS-1'))).press({ type: 's' }, 'enter', 'enter', 'enter')
  const before = made.events.length
  made.type('a')
  expect(made.text()).toContain('Open item 1 of 2')
  made.press('enter')
  expect(made.text()).toMatch(/CS-9 stands in[^]*CL-9 stands in[^]*DR-9 stands in/)
  made.press('enter', 'down', 'enter', 'enter')
  expect(taken(made)).toHaveLength(4)
  expect(made.events).toHaveLength(before + 4)
})
