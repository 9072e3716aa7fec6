// After a working fire the gear of a whole crew goes away, comes back and is cared for in a few keys.
import { describe, expect, test } from 'vitest'
import { garment, sendsAway, tags } from '../domain/fit-crew.ts'
import type { Told } from '../domain/given.ts'
import { bench, type Bench } from './bench.ts'
import { fitEngine } from './stations.ts'

/** Both riding positions exposed: twelve elements each. */
const burnt = (): Bench =>
  bench(fitEngine({ do: 'record-exposure', exposure: 'products-of-combustion', seats: ['E6-1', 'E6-2'] }))
const CREW = 'All that is out of service in the crew of Engine 6 (24)'

test('all that is out of service at the riding position or in its crew is offered, with how many that are', () => {
  for (const key of ['w', 'k']) {
    const text = burnt().type(key).text()
    expect(text).toContain('All that is out of service here (12)')
    expect(text).toContain(CREW)
  }
})

test('one element alone is not offered as a group', () => {
  expect(
    bench(fitEngine(tags('HE-1')))
      .type('w')
      .text(),
  ).not.toContain('All that is out of service')
})

test('a whole crew is sent, received and cared for: one command away, one back, one care for each', () => {
  const board = burnt().press({ type: 'w' }).pick('in the crew').press('enter').write('North Wash')
  expect(board.text()).toContain('Send 24 elements to North Wash for advanced cleaning?')
  expect(board.text()).toContain('CS-1, CL-1, DR-1')
  board.press('enter')
  expect(board.events).toMatchObject([{ type: 'elements-sent-away', data: { for: 'advanced-cleaning' } }])
  board.press({ type: 'v' })
  expect(board.text()).toContain('Everything from North Wash (24)')
  board.press('enter')
  expect(board.text()).toContain('24 elements have come back?')
  expect(board.text()).toContain('CS-1, CL-1, DR-1')
  board.press('enter')
  expect(board.last()).toBe('elements-received-back')
  board
    .press({ type: 'k' })
    .pick('in the crew')
    .press('enter', 'enter')
    .pick('serviceable')
    .write('North Wash')
  expect(board.text()).toContain('Advanced cleaning of 24 elements on 2026-11-24, serviceable?')
  // A cylinder that was in other hands may have been emptied there.
  expect(board.text()).toContain('A. Varga may not ride: Cylinder CY-1: its pressure has not been read since')
  board.press('enter')
  expect(board.events.slice(2).map((event) => event.type)).toEqual(
    Array.from({ length: 24 }, () => 'care-recorded'),
  )
  const reads = (): Bench => board.press({ type: 'p' }).write('4500').press('enter')
  reads().press('down')
  reads()
  expect(board.view.board.headline).toContain('Everybody seated may ride')
})

test('the care that the open exposures ask for comes first, and only cares that every element takes are offered', () => {
  const wet = bench(fitEngine({ do: 'record-exposure', exposure: 'water', seats: ['E6-1'] }))
  const lines = wet.press({ type: 'k' }).pick('all that is').screen()
  expect(lines.find((line) => line.startsWith(' > '))).toContain('Drying')
  expect(lines.join('\n')).not.toMatch(/Hydrostatic test|Flow test|Complete liner|Advanced inspection/)
  const liner = bench(fitEngine()).press({ type: 'k' }).pick('coat liner').text()
  expect(liner).toContain('Complete liner inspection')
})

test('each place has its own line, and what is alone at a place comes back by itself', () => {
  const more = [sendsAway('GL-1'), sendsAway('HO-1'), garment('hood', '8')].flat()
  const alone: Told = { do: 'send-away', elements: ['HO-8'], to: 'Mill Lane', for: 'repair' }
  const text = bench(fitEngine(...more, alone))
    .type('v')
    .text()
  expect(text).toContain('Everything from North Wash (2)')
  expect(text).not.toContain('Everything from Mill Lane')
  expect(text).toContain('Hood HO-8')
})

test('care of what is away can be recorded for everything at one place', () => {
  const board = bench(fitEngine(sendsAway('GL-1'), sendsAway('HO-1'))).press({ type: 'k' })
  board
    .pick('everything away')
    .pick('advanced cleaning')
    .press('enter')
    .pick('serviceable')
    .write('North Wash')
  expect(board.press('enter').commands.map((each) => 'element' in each && each.element)).toEqual([
    'HO-1',
    'GL-1',
  ])
})

test('a group that another terminal saw to meanwhile leaves nothing to confirm', () => {
  const { ui } = burnt().press({ type: 'w' }).pick('in the crew')
  const late = bench(fitEngine(), { ui })
  expect(late.text()).toContain('It was seen to meanwhile. Esc goes back.')
  expect(late.press('enter', 'enter').events).toEqual([])
})

describe('the turnaround goes on by itself', () => {
  const fire = (): Bench =>
    bench(fitEngine()).press({ type: 'e' }, 'enter').pick('combustion').write('26-0412').press('enter')

  test('an exposure of the crew offers to send its gear away, and a held Enter sends nothing', () => {
    const board = fire()
    expect(board.text()).toContain('Without breathing apparatus, in the crew of Engine 6 (18)')
    expect(board.press('enter', 'enter').events).toHaveLength(1)
    board.press('down').pick('all that is').press('enter').write('North Wash')
    expect(board.text()).toContain('Officer A. Varga (12): CS-1, CL-1, DR-1')
    expect(board.text()).toContain('Driver B. Okoro (12): CS-2')
    expect(board.press('enter').events.at(-1)).toMatchObject({
      type: 'elements-sent-away',
      data: { to: 'North Wash', for: 'advanced-cleaning' },
    })
    expect(board.ui.message!.text).toContain('x prints the slip, g works out the spares.')
  })

  test('g leaves the offer and goes to the plan of the whole crew', () => {
    expect(fire().type('g').ui.screen).toBe('plan')
  })

  test('an exposure of one offers only what is theirs', () => {
    const board = bench(fitEngine())
      .press({ type: 'e' }, 'down', 'enter')
      .pick('combustion')
      .write('')
      .press('enter')
    expect(board.text()).toContain('All that is out of service here (12)')
    expect(board.text()).not.toContain('in the crew')
  })

  const cleaned = (): Bench => {
    const board = fire().press('down').pick('all that is').press('enter').write('North Wash').press('enter')
    return board.press({ type: 'v' }, 'enter', 'enter')
  }
  test('what comes back is asked after at once: the care, and which of them failed', () => {
    const board = cleaned()
    expect(board.text()).toContain('Which care of 24 elements?')
    board
      .press('down', 'enter', 'enter')
      .pick('but some')
      .pick('hood ho1')
      .pick('gloves gl2')
      .pick('that is all')
    expect(board.text()).toContain('Done by whom?')
    expect(board.ui.text).toBe('North Wash')
    board.press('enter')
    expect(board.text()).toContain('serviceable but HO-1, GL-2?')
    board.press('enter')
    const failed = board.events.flatMap((each) =>
      each.type === 'care-recorded' && each.data.result === 'unserviceable' ? each.data.element : [],
    )
    expect(failed).toEqual(['HO-1', 'GL-2'])
    expect(board.state.elements.get('HO-1')!.tags).toHaveLength(1)
    expect(board.events.filter((each) => each.type === 'care-recorded')).toHaveLength(24)
  })

  test('the place that gear was sent to last is proposed for the next', () => {
    const board = fire().press('down').pick('all that is').press('enter').write('North Wash').press('enter')
    board.press({ type: 'w' }).pick('another', 'ap1', 'repair')
    expect(board.ui.text).toBe('North Wash')
  })
})

describe('a tag is lifted', () => {
  const mended: Told = {
    do: 'record-care',
    element: 'HO-1',
    care: 'repair',
    on: '2026-11-24',
    result: 'serviceable',
    who: 'Mill Lane',
  }
  test('on what was recorded since it was put on', () => {
    const board = bench(fitEngine(tags('HO-1'), mended)).press({ type: 'u' }, 'enter')
    expect(board.text()).toContain('Repair on 24 Nov 2026 by Mill Lane')
    board.press('enter', 'enter')
    expect(board.events).toMatchObject([
      { type: 'tag-lifted', data: { basis: expect.stringMatching(/^repair on .*#\d+$/) } },
    ])
  })
  test('or in one’s own words; and on nothing that was done before', () => {
    const own = bench(fitEngine(tags('HO-1'), mended))
      .press({ type: 'u' }, 'enter')
      .pick('own words')
    expect(own.write('sound').press('enter').events).toMatchObject([{ data: { basis: 'sound' } }])
    const before = bench(fitEngine(mended, tags('HO-1'))).press({ type: 'u' }, 'enter')
    expect(before.text()).not.toContain('Repair on')
    expect(before.text()).toContain('how it is known to be good')
  })
  test('as soon as the repair of it is recorded, if the officer says so', () => {
    const board = bench(fitEngine(tags('HO-1')))
      .press({ type: 'k' })
      .pick('hood', 'repair')
      .press('enter', 'enter')
    board.write('Mill Lane').press('enter')
    expect(board.last()).toBe('care-recorded')
    expect(board.press('enter', 'enter').last()).toBe('care-recorded')
    expect(board.press('down', 'enter', 'enter').last()).toBe('tag-lifted')
  })
  test('is not offered where the care was failed', () => {
    const board = bench(fitEngine(tags('HO-1')))
      .press({ type: 'k' })
      .pick('hood', 'repair')
      .press('enter')
    board.pick('unserviceable').write('Mill Lane').press('enter')
    expect(board.ui.screen).toBe('board')
  })
})

test('of an injured member everything is held at once, and nothing of it is cleaned', () => {
  const board = bench(fitEngine()).press({ type: 'd' }).pick('everything').write('struck by a beam')
  expect(board.text()).toContain('Hold 12 elements as evidence?')
  board.press('enter')
  expect(board.events.map((each) => each.type)).toEqual(Array.from({ length: 12 }, () => 'element-held'))
  board.press({ type: 'v' }).pick('hood').press('enter')
  expect([board.last(), board.ui.screen]).toEqual(['elements-received-back', 'board'])
})

test('gear is retired with how it is disposed of, chosen or in own words', () => {
  const cut = bench(fitEngine())
    .press({ type: 'z' })
    .pick('hood')
    .write('worn out')
    .pick('cut up')
    .press('enter')
  expect(cut.events).toMatchObject([
    { data: { reason: 'worn out', disposal: 'cut up, so that nobody can wear it' } },
  ])
  const own = bench(fitEngine())
    .press({ type: 'z' })
    .pick('hood')
    .write('worn out')
    .pick('own words')
    .write('burnt')
  expect(own.press('enter').events).toMatchObject([{ data: { disposal: 'burnt' } }])
})
