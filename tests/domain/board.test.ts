// The words of the board, as golden text of a small station: they alone must carry the meaning, without colour or symbol.
import { describe, expect, it } from 'vitest'
import { assessNow } from '../../src/domain/assess.ts'
import { arrange, type Board } from '../../src/domain/board.ts'
import { SIGNS } from '../../src/domain/signs.ts'
import type { State } from '../../src/domain/state.ts'
import { answers, fitCrew, garment, HOUSE, reads, sendsAway, tags } from './fit-crew.ts'
import { NOW, stateOf, type Steps, type Told } from './given.ts'
import { overlay } from './overlay.ts'

const boardOf = (state: State, at = NOW): Board => arrange(assessNow(state, at), state)
const board = (...steps: Steps) => boardOf(fitCrew(...steps))

const placesOf = (...steps: Steps) => board(...steps).rigs[0]!.rows[0]!.places

/** The board as bare words: what a reader has who sees neither colour nor symbol. */
const inWords = ({ headline, rollCall, rigs }: Board): string[] => [
  headline,
  rollCall.words,
  ...rigs.flatMap((rig) => [
    `${rig.name} ${rig.words}`,
    ...rig.rows.map((row) =>
      [row.position, row.name, SIGNS[row.state].word, row.sentence].filter(Boolean).join(' / '),
    ),
  ]),
]

const third: Told[] = [
  { do: 'add-member', member: { id: 'M-300', name: 'C. Lindqvist', platoon: 'B' } },
  { do: 'seat-member', seat: 'E6-3', member: 'M-300' },
]

describe('the board in words', () => {
  it('when all is well is quiet', () => {
    expect(inWords(board())).toEqual([
      'Everybody seated may ride and every rig can.',
      'Roll call not complete: 0 of 2 answered.',
      'Engine 6 can ride: 2 fit, 2 needed',
      'Officer / A. Varga / ready',
      'Driver / B. Okoro / ready',
      'Nozzle / unfilled / Nobody rides here.',
    ])
  })

  it('when somebody may not ride says who, why, and what it does to the rig', () => {
    expect(inWords(board(answers('E6-1'), tags('BO-1'), sendsAway('HO-2')))).toEqual([
      '2 may not ride: A. Varga, B. Okoro; 1 unfilled. Engine 6 cannot ride.',
      'Roll call not complete: 1 of 2 answered, last 07:02.',
      'Engine 6 cannot ride: 0 fit, 2 needed; without Officer',
      'Officer / A. Varga / out of service / Boots BO-1: tagged, torn seam.',
      'Driver / B. Okoro / missing / Hood HO-2: missing, it is away at North Wash for advanced cleaning.',
      'Nozzle / unfilled / Nobody rides here.',
    ])
  })

  it('when only one may not ride and the rig still can, does not keep the rig in', () => {
    const words = inWords(board(third))
    expect(words[0]).toBe('1 may not ride: C. Lindqvist.')
    expect(words[2]).toBe('Engine 6 can ride: 2 fit, 2 needed')
    expect(words[5]).toBe('Nozzle / C. Lindqvist / missing / Coat shell: missing.')
  })

  it('does not look better for an officer who may not ride and leaves: the empty position is counted beside', () => {
    const before = board(tags('BO-1'), tags('BO-2'))
    const after = board(tags('BO-1'), tags('BO-2'), { do: 'clear-seat', seat: 'E6-1' })
    expect(before.headline).toBe('2 may not ride: A. Varga, B. Okoro; 1 unfilled. Engine 6 cannot ride.')
    expect(after.headline).toBe('1 may not ride: B. Okoro; 2 unfilled. Engine 6 cannot ride.')
  })

  it('when too few are seated says that the rig cannot ride though everybody may', () => {
    const words = inWords(board({ do: 'clear-seat', seat: 'E6-1' }))
    expect(words[0]).toBe('Everybody seated may ride; 2 unfilled. Engine 6 cannot ride.')
    expect(words[2]).toBe('Engine 6 cannot ride: 1 fit, 2 needed; without Officer')
  })

  it('when the roll call is complete says so, with its last answer', () => {
    const { rollCall } = board(answers('E6-2'), { ...answers('E6-1'), at: '2026-11-24T07:20:00.000-05:00' })
    expect(rollCall).toMatchObject({ answered: 2, filled: 2, complete: true })
    expect(rollCall.words).toBe('Roll call complete: 2 of 2 answered, last 07:20.')
  })

  it('when the last answer came on another day says which', () => {
    const late = '2026-11-25T06:00:00.000-05:00'
    const state = fitCrew(answers('E6-2'), { ...answers('E6-1'), at: '2026-11-24T23:10:00.000-05:00' })
    const { rollCall } = boardOf(state, late)
    expect(rollCall.words).toBe('Roll call complete: 2 of 2 answered, last 23:10 on 24 Nov 2026.')
  })

  it('when a limit comes near counts the riding positions that have one', () => {
    const state = fitCrew(
      reads('1', 4500, '2027-02-10T07:00:00.000-05:00'),
      reads('2', 4500, '2027-02-10T07:00:00.000-05:00'),
    )
    const due = boardOf(state, '2027-02-10T08:00:00.000-05:00')
    expect([due.headline, due.tone]).toEqual([
      'Everybody seated may ride and every rig can. 2 with something due.',
      'warn',
    ])
    expect(due.rigs[0]!.rows[0]!.sentence).toBe(
      'Coat shell CS-1: 6 months from advanced cleaning ends on 1 Mar 2027.',
    )
  })

  it('without a tour, a crew or a rig says which is lacking', () => {
    expect(inWords(boardOf(stateOf())).slice(0, 2)).toEqual([
      'This station has no rig yet.',
      'No tour is open.',
    ])
    expect(inWords(boardOf(stateOf(...HOUSE)))[0]).toBe('Nobody is seated yet.')
  })

  it('names two who may not ride, and only counts three or more', () => {
    const more: Told[] = ['C', 'D', 'E'].flatMap((letter, index): Told[] => [
      { do: 'add-member', member: { id: `M-40${index}`, name: `${letter}. Example`, platoon: 'B' } },
      { do: 'seat-member', seat: `L2-${index + 1}`, member: `M-40${index}` },
    ])
    const seats = [1, 2, 3].map((place) => ({ id: `L2-${place}`, position: `Place ${place}` }))
    const { headline } = board(
      { do: 'add-rig', rig: { id: 'L2', name: 'Ladder 2', minimum: 3, seats } },
      more,
    )
    expect(headline).toBe('3 may not ride; 1 unfilled. Ladder 2 cannot ride.')
  })
})

describe('the tone', () => {
  it('is bad when somebody may not ride or a rig cannot, and good when nothing needs a decision', () => {
    expect(board().tone).toBe('good')
    expect(board(tags('BO-2')).tone).toBe('bad')
    expect(board({ do: 'clear-seat', seat: 'E6-1' }).tone).toBe('bad')
    expect(board().rigs[0]!.tone).toBe('good')
  })
})

describe('the places of a riding position', () => {
  it('say the word, the element and its label, and nothing against it', () => {
    expect(placesOf()[0]).toEqual({
      kind: 'coat-shell',
      word: 'coat shell',
      element: 'CS-1',
      label: '44x32, made 2024-05',
      standsIn: false,
      state: 'ready',
      text: '',
    })
    expect(placesOf().at(-1)!.label).toBe('rated 4500 psi, made 2024-05')
  })

  it('say what is worst about each', () => {
    const boots = placesOf(tags('BO-1')).find((place) => place.kind === 'boots')!
    expect([boots.state, boots.text]).toEqual(['out-of-service', 'tagged, torn seam'])
  })

  it('say why a drag rescue device may be lacking, rather than that one is ready', () => {
    const coat = [...garment('coat-shell', '9', { edition: '1971-2000' }), ...garment('coat-liner', '9')]
    const swaps: Told[] = [
      { do: 'swap', seat: 'E6-1', out: 'CS-1', in: 'CS-9' },
      { do: 'swap', seat: 'E6-1', out: 'CL-1', in: 'CL-9' },
    ]
    const places = placesOf({ do: 'return-to-rack', element: 'DR-1' }, coat, swaps)
    const device = places.find((place) => place.kind === 'drag-rescue-device')!
    expect(device).toMatchObject({
      element: null,
      state: 'ready',
      text: 'coat shell CS-9 is labelled 2000 and may lack one',
    })
    expect(places[0]!.standsIn).toBe(true)
  })
})

describe('the policy on the board', () => {
  it('is named with what of it is provisional', () => {
    expect(board().policy).toMatchObject({ overlay: null, looser: [] })
    expect(board().policy.provisional).toContain('from memory')
  })

  it('lists every rule that the department made looser or switched off, and flags its reasons', () => {
    const laid = overlay(
      { id: 'advanced-cleaning-interval', limit: 'P9M' },
      { id: 'wet', off: true },
      { id: 'fit-test', limit: 'P6M' },
    )
    const { policy, rigs } = boardOf(
      fitCrew({ do: 'adopt-policy', overlay: laid }),
      '2027-07-01T08:00:00.000-04:00',
    )
    expect(policy.overlay).toBe('Alder Hollow')
    expect(policy.looser).toEqual([
      'advanced cleaning interval: limit 9 months, not 6 months (Our chief decided so.)',
      'wet: switched off (Our chief decided so.)',
    ])
    const flagged = rigs[0]!.rows[0]!.reasons.filter((each) => each.looser).map((each) => each.rule)
    expect(new Set(flagged)).toEqual(new Set(['advanced-cleaning-interval']))
  })
})
