// What was swapped in as one assembly goes back as one, or not at all; and spares say plainly whether they fit.
import { expect, test } from 'vitest'
import { coat, garment, tags } from '../domain/fit-crew.ts'
import { bench, type Bench } from './bench.ts'
import { fitEngine } from './stations.ts'

/** The officer's coat liner is tagged and a whole spare coat stands in. */
const swapped = (...more: Parameters<typeof fitEngine>): Bench =>
  bench(fitEngine(...coat('9'), ...more))
    .press({ type: 's' })
    .pick('coat shell')
    .pick('CS-9')
    .press('enter')

test('the whole coat goes back, three commands in one act, whichever layer was chosen', () => {
  for (const layer of ['coat shell', 'coat liner', 'drag rescue']) {
    const board = swapped().press({ type: 'b' }).pick(layer)
    expect(board.text()).toContain('Swap coat shell CS-9, coat liner CL-9 and drag rescue device DR-9 back?')
    board.press('enter')
    expect(board.events.slice(3)).toMatchObject([
      { type: 'swap-reversed', data: { in: 'CS-1', out: 'CS-9' } },
      { type: 'swap-reversed', data: { in: 'CL-1', out: 'CL-9' } },
      { type: 'swap-reversed', data: { in: 'DR-1', out: 'DR-9' } },
    ])
    expect(board.view.row).toMatchObject({ fit: true })
  }
})

test('each line says what goes back with it', () => {
  const text = swapped().type('b').text({ columns: 120, rows: 40 })
  expect(text).toContain('with coat liner CL-9 and drag rescue device DR-9; own: CS-1, CL-1, DR-1')
})

test('if one layer cannot go back none does, and the last look says why', () => {
  const board = swapped(tags('CL-1')).press({ type: 'b' }).pick('coat shell')
  expect(board.text()).toContain('Coat liner CL-1 is still out of service: torn seam. Lift its tag first.')
  const before = board.events.length
  expect(board.press('enter', 'enter').events).toHaveLength(before)
})

test('a spare of another family stays where it is', () => {
  const board = swapped(...garment('helmet', '9'))
  board
    .press({ type: 's' })
    .pick('helmet')
    .pick('HE-9')
    .press('enter', { type: 'b' })
    .pick('coat shell')
    .press('enter')
  expect([...board.state.standIns.values()].map((each) => each.element)).toEqual(['HE-9'])
})

test('a layer that the member has none of their own for leaves with the others', () => {
  const none = { do: 'retire', element: 'DR-1', reason: 'torn', disposal: 'cut up' } as const
  const board = swapped(none).press({ type: 'b' }).pick('coat shell').press('enter')
  expect([...board.state.standIns.values()]).toEqual([])
  expect(board.state.elements.get('DR-9')!.custody.where).toBe('rack')
})

test('a spare that does not fit is "no", with the reasons; out of service is said only of what is itself so', () => {
  const spares = [
    ...garment('gloves', '7', { size: '64N' }),
    ...garment('gloves', '8'),
    ...garment('gloves', '9'),
    tags('GL-8'),
  ]
  const lines = bench(fitEngine(...spares))
    .press({ type: 's' })
    .pick('gloves')
    .screen({ columns: 160, rows: 40 })
  const of = (id: string): string => lines.find((line) => line.includes(`: ${id} `))!
  expect(of('GL-9')).toContain('fits: GL-9')
  expect(of('GL-7')).toContain('no: GL-7')
  expect(of('GL-7')).toContain('size 64N does not fit')
  expect(of('GL-7')).not.toContain('out of service')
  expect(of('GL-8')).toContain('no: GL-8')
  expect(of('GL-8')).toContain('is itself out of service: torn seam')
})

test('where the rack has no spare, only of a riding position that may not ride is it said that it stays unfit', () => {
  const title = (...more: Parameters<typeof fitEngine>): string =>
    bench(fitEngine(...more))
      .press({ type: 's' })
      .pick('hood')
      .text()
  expect(title()).toContain('The rack has no spare hood. Esc goes back.')
  expect(title(tags('HO-1'))).toContain('The rack has no spare hood. Officer stays unfit. Esc goes back.')
})

test('a member without a fit test is named in the swap list as their name is written', () => {
  const board = bench(
    fitEngine(
      { do: 'add-member', member: { id: 'M-700', name: 'Bo Oquendo', platoon: 'B' } },
      { do: 'seat-member', seat: 'E6-3', member: 'M-700' },
      {
        do: 'add-element',
        element: { id: 'FP-7', kind: 'facepiece', model: 'Invented', size: 'M' },
      },
      { do: 'issue', element: 'FP-7', to: 'M-700' },
    ),
    { ui: { seat: 'E6-3' } },
  ).type('s')
  expect(board.text()).toContain('unproven: Bo Oquendo has no fit test on record')
})
