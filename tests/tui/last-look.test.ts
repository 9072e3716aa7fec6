// The last look before recording tells, by name, everybody whose fitness changes; what does not fit the glass is counted.
import { expect, test } from 'vitest'
import { tags } from '../domain/fit-crew.ts'
import type { Told } from '../domain/given.ts'
import { sayNames } from '../../src/tui/say.ts'
import { bench } from './bench.ts'
import { demonstration, fitEngine, house } from './stations.ts'

test('an exposure names who was exposed and who may not ride after it', () => {
  const board = bench(fitEngine()).press({ type: 'e' }, 'enter').pick('products').write('26-0412')
  expect(board.text()).toContain('Exposure to products of combustion at 26-0412: A. Varga, B. Okoro?')
  expect(board.text()).toContain('May not ride after this: A. Varga, B. Okoro.')
})

test('a tag lifted from another riding position names who may ride again', () => {
  const board = bench(fitEngine(tags('HO-2')))
    .press({ type: 'u' }, 'enter')
    .write('inspected, sound')
  expect(board.text()).toContain('May ride again: B. Okoro.')
  expect(board.text()).toContain('Engine 6 can ride: 2 fit, 2 needed.')
})

test('whoever is in hand and alone concerned is told of once, with the reason', () => {
  const text = bench(fitEngine()).press({ type: 't' }).pick('hood', 'hole').pick('safety').text()
  expect(text).toContain('A. Varga may not ride: Hood HO-1: tagged, hole.')
  expect(text).not.toContain('May not ride after this')
})

test('clearing the position of an officer who may not ride anyway still says that it is then unfilled', () => {
  const unfit = bench(fitEngine(tags('HO-1')))
  expect(unfit.view.rows[0]).toMatchObject({ seat: 'E6-1', fit: false })
  expect(unfit.press({ type: 'c' }).text()).toContain('Then nobody rides at E6-1 as Officer: it is unfilled.')
  const fit = bench(fitEngine()).press({ type: 'c' }).text()
  expect(fit).toContain('Then nobody rides at E6-1 as Officer: it is unfilled.')
  expect(fit).toContain('Engine 6 cannot ride: 1 fit, 2 needed; without Officer.')
})

test('who may ride with something due is said to be due, not merely to ride', () => {
  const breathed: Told = { do: 'record-exposure', exposure: 'products-of-combustion', elements: ['AP-1'] }
  const cleaned: Told = {
    do: 'record-care',
    element: 'AP-1',
    care: 'routine-cleaning',
    on: '2026-11-24',
    result: 'serviceable',
  }
  const board = bench(fitEngine(breathed, cleaned, { do: 'clear-seat', seat: 'E6-1' }))
    .press({ type: 'm' })
    .pick('varga')
  expect(board.text().replaceAll(/\s+/g, ' ')).toContain(
    'A. Varga may ride, but due: Air pack AP-1: exposed to products of combustion on 24 Nov 2026, needs',
  )
})

test('opening a tour says of whom it seats who may not ride yet', () => {
  const opens: Told = { do: 'open-tour', tour: 'T-1', platoon: 'B', officer: 'M-104', on: '2026-11-23' }
  const ended: Told[] = [
    opens,
    { do: 'seat-member', seat: 'E6-1', member: 'M-104' },
    { do: 'hand-over', to: 'M-105' },
    { do: 'clear-seat', seat: 'E6-1' },
  ]
  const board = bench(house(...ended))
    .press('down', { type: 'o' }, 'enter')
    .pick('okoro')
  expect(board.text()).toContain('May not ride after this: A. Varga.')
})

test('six names are said and the others counted', () => {
  const names = ['A', 'B', 'C', 'D', 'E', 'F']
  expect(sayNames(names)).toBe('A, B, C, D, E, F')
  expect(sayNames([...names, 'G', 'H', 'I', 'J', 'K'])).toBe('A, B, C, D, E, F and 5 more')
})

test('the hand-over tells every open item: what there is no room for is a page further', () => {
  const found = ['1', '2'].flatMap((set) =>
    ['GL', 'HO', 'BO', 'HE', 'CS', 'CL', 'TS', 'TL', 'FP'].map((kind) => `${kind}-${set}`),
  )
  const board = bench(fitEngine(...found.map((id) => tags(id))))
    .press({ type: 'h' })
    .pick('okoro')
  const read = new Set<string>()
  for (let page = 0; page < 20; page += 1) {
    for (const [, id] of board.text().matchAll(/(\S+) is out of service: torn seam;/g)) read.add(id!)
    expect(board.text()).toContain('B. Okoro (M-105) has read this back and takes it over')
    board.press('page-down')
  }
  expect(read).toEqual(new Set(found))
  expect(board.text()).toContain('the end; PgUp goes back')
  expect(board.press('page-up').text()).toContain('PgDn reads on')
})

test('the hand-over tells all that keeps somebody from riding, not the worst alone', () => {
  const board = bench(fitEngine(tags('GL-1'), tags('HE-1')))
    .press({ type: 'h' })
    .pick('okoro')
  expect(board.text().replaceAll(/\s+/g, ' ')).toMatch(
    /A\. Varga may not ride: Helmet HE-1: tagged, torn seam\. Also: gloves GL-1 out of service\./,
  )
})

test('what is left unread is counted, and what was acknowledged is said in its own words', () => {
  const board = bench(fitEngine(tags('HO-1'), tags('GL-2'))).type('a')
  expect(board.text()).toContain('Open item 1 of 2 not yet acknowledged.')
  board.press('enter', 'end', 'enter', 'enter')
  expect(board.ui.message!.text).toBe('Acknowledged: Hood HO-1 is out of service: torn seam. 1 left.')
  board.type('a')
  expect(board.text()).toContain('Open item 1 of 1 not yet acknowledged.')
  board.press('enter', 'enter')
  expect(board.ui.message!.text).toBe('Acknowledged: Gloves GL-2 is out of service: torn seam. None is left.')
})

test('for a riding position free members of the platoon come first, then others, then those who ride, with the reason', () => {
  const more: Told[] = [
    { do: 'add-member', member: { id: 'M-900', name: 'Aa Other', platoon: 'C' } },
    { do: 'add-member', member: { id: 'M-901', name: 'Zed Same', platoon: 'B' } },
  ]
  const board = bench(fitEngine(...more)).press('end', { type: 'm' })
  const names = ['Zed Same', 'Aa Other', 'A. Varga', 'B. Okoro']
  const order = board
    .screen()
    .flatMap((line) => names.filter((name) => line.startsWith(` > ${name}`) || line.startsWith(`   ${name}`)))
  expect(order).toEqual(names)
  board.pick('varga')
  expect(board.ui.message!.text).toMatch(/^A\. Varga already rides at E6-1/)
  expect(board.events).toEqual([])
})

test('what is ready is named as far as there is room, and the rest counted, never cut', () => {
  const text = bench(demonstration(), { ui: { seat: 'E9-3' } }).text()
  const [, ready] = /Ready: ([^]*?)\.\n/.exec(text)!
  expect(ready).toMatch(/ and \d+ more$/)
})

test('who is out of sight and may not ride is named whole or only counted', () => {
  const wide = bench(demonstration()).text()
  expect(wide).toContain('6 more below; 2 of them may not ride: Priya Halvering, Osric Nantambry\n')
  for (const seat of ['E9-1', 'E9-5', 'L9-1', 'L9-6']) {
    const board = bench(demonstration(), { ui: { seat } })
    const lines = board.screen()
    const from = lines.findIndex((each) => / more (above|below)/.test(each))
    const to = lines.findIndex((each) => each.startsWith('──'))
    const line = lines.slice(from, to).join('')
    expect(line).not.toContain('…')
    const names = line.split('ride: ')[1]?.split('. ')[0]?.split(', ') ?? []
    for (const name of names) expect(board.view.rows.map((row) => row.name)).toContain(name)
  }
})
