// What a whole station is judged to be: its riding positions, its rigs, and whether it is ready.
import { describe, expect, it } from 'vitest'
import { assess, assessNow, isReady, type Assessment } from '../../src/domain/assess.ts'
import { KINDS } from '../../src/domain/kinds.ts'
import { sayVerdict } from '../../src/domain/rules/verdict.ts'
import type { State } from '../../src/domain/state.ts'
import { answers, fitCrew, garment, reads, sendsAway, tags } from './fit-crew.ts'
import { NOW, stateOf, type Told } from './given.ts'
import { POLICY } from './rules/judging.ts'

const seatIn = (assessment: Assessment, id: string) =>
  assessment.rigs.flatMap((rig) => rig.seats).find((each) => each.seat.id === id)!
const seatOf = (state: State, id = 'E6-1') => seatIn(assessNow(state, NOW), id)
const sentences = (state: State, id = 'E6-1') => seatOf(state, id).reasons.map(sayVerdict)

const rigOf = (...steps: Told[]) => assessNow(fitCrew(...steps), NOW).rigs[0]!
const openAt = (...steps: Told[]) => rigOf(...steps).criticalOpen.map((seat) => seat.id)

describe('a crew whose gear is whole and in date', () => {
  const state = fitCrew()

  it('is fit to ride, with every place looked at and nothing against it', () => {
    const seat = seatOf(state)
    expect([seat.state, seat.fit, seat.reasons]).toEqual(['ready', true, []])
    expect(seat.places.map((place) => place.kind)).toEqual([...KINDS])
    expect(seat.places.filter((place) => place.verdicts.length === 0)).toEqual([])
  })

  it('has not answered because it is fit: roll call is a separate fact', () => {
    expect(seatOf(state).answered).toBe(false)
    const answered = seatOf(fitCrew(answers('E6-1')))
    expect([answered.answered, answered.state]).toEqual([true, 'ready'])
  })

  it('makes the station ready, though one riding position is unfilled', () => {
    const assessment = assessNow(state, NOW)
    expect(seatIn(assessment, 'E6-3')).toMatchObject({
      state: 'unfilled',
      fit: false,
      places: [],
      reasons: [],
    })
    expect(isReady(assessment)).toBe(true)
  })
})

describe('a rig', () => {
  it('can ride with exactly its minimum fit', () => {
    expect(rigOf()).toMatchObject({ fit: 2, minimum: 2, canRide: true, criticalOpen: [] })
  })
  it('cannot ride with one fewer', () => {
    expect(rigOf(tags('BO-2'))).toMatchObject({ fit: 1, canRide: false, criticalOpen: [] })
  })
  it('cannot ride with its critical riding position unfit or unfilled', () => {
    expect(openAt(tags('BO-1'))).toEqual(['E6-1'])
    expect(openAt({ do: 'clear-seat', seat: 'E6-1' })).toEqual(['E6-1'])
  })
  it('is kept in by its critical riding position alone, with enough fit without it', () => {
    const state = fitCrew(tags('BO-1'))
    const rig = { ...state.rigs.get('E6')!, minimum: 1 }
    const [judged] = assess({ ...state, rigs: new Map([['E6', rig]]) }, POLICY, NOW).rigs
    expect(judged).toMatchObject({ fit: 1, minimum: 1, canRide: false })
  })
  it('that there is none of makes no station ready', () => {
    expect(isReady(assessNow(stateOf(), NOW))).toBe(false)
  })
})

describe('a station is not ready', () => {
  it('while somebody seated is unfit, though every rig can ride', () => {
    const state = fitCrew(tags('BO-2'))
    const rig = { ...state.rigs.get('E6')!, minimum: 1 }
    const assessment = assess({ ...state, rigs: new Map([['E6', rig]]) }, POLICY, NOW)
    expect(assessment.rigs[0]!.canRide).toBe(true)
    expect(isReady(assessment)).toBe(false)
  })
})

describe('a seat', () => {
  it.each<[string, Told[], string]>([
    ['its boots tagged', [tags('BO-1')], 'Boots BO-1: tagged, torn seam.'],
    [
      'its hood away',
      [sendsAway('HO-1')],
      'Hood HO-1: missing, it is away at North Wash for advanced cleaning.',
    ],
    [
      'its helmet held',
      [{ do: 'hold', element: 'HE-1', reason: 'injury' }],
      'Helmet HE-1: missing, it is held as evidence: injury.',
    ],
    [
      'its gloves retired',
      [{ do: 'retire', element: 'GL-1', reason: 'burnt', disposal: 'cut up' }],
      'Gloves: missing.',
    ],
    [
      'its drag rescue device away',
      [sendsAway('DR-1')],
      'Drag rescue device DR-1: missing, it is away at North Wash for advanced cleaning.',
    ],
    [
      'its cylinder low',
      [reads('1', 4050)],
      'Cylinder CY-1: 4050 psi is at or below 90% of 4500: change or refill it.',
    ],
    [
      'its coat in smoke',
      [
        {
          do: 'record-exposure',
          exposure: 'products-of-combustion',
          elements: ['CS-1'],
          incident: '26-0412',
        },
      ],
      'Coat shell CS-1: exposed to products of combustion at 26-0412 on 24 Nov 2026, needs advanced cleaning or specialised cleaning.',
    ],
    [
      'wet gloves',
      [{ do: 'record-exposure', exposure: 'water', elements: ['GL-1'] }],
      'Gloves GL-1: wet on 24 Nov 2026, needs drying.',
    ],
  ])('with %s says so and nothing else', (_name, steps, sentence) => {
    const state = fitCrew(...steps)
    expect(sentences(state)).toEqual([sentence])
    expect(seatOf(state).fit).toBe(false)
    expect(seatOf(state, 'E6-2').fit).toBe(true)
  })

  it('with a shell and no liner is missing the liner, of which nothing else is said', () => {
    const seat = seatOf(fitCrew(sendsAway('CL-1')))
    const liner = seat.places.find((place) => place.kind === 'coat-liner')!
    expect(seat.state).toBe('missing')
    expect(liner.verdicts.map((each) => [each.rule, each.state])).toEqual([['element-missing', 'missing']])
  })

  it('tells the worst first, and safety before records', () => {
    const seat = seatOf(fitCrew(sendsAway('HO-1'), tags('BO-1'), tags('GL-1', 'compliance')))
    expect(seat.reasons.map((each) => [each.element, each.state, each.matter])).toEqual([
      ['BO-1', 'out-of-service', 'safety'],
      ['GL-1', 'out-of-service', 'compliance'],
      ['HO-1', 'missing', 'safety'],
    ])
  })

  it('is judged with the spare that stands in, and says that it does', () => {
    const state = fitCrew(tags('HO-1'), garment('hood', '9'), {
      do: 'swap',
      seat: 'E6-1',
      out: 'HO-1',
      in: 'HO-9',
    })
    const place = seatOf(state).places.find((each) => each.kind === 'hood')!
    expect([place.element!.id, place.standsIn, place.state]).toEqual(['HO-9', true, 'ready'])
    expect(seatOf(state).fit).toBe(true)
  })

  it('follows its member: gear goes along, the air pack and cylinder stay', () => {
    const moved = fitCrew(
      { do: 'clear-seat', seat: 'E6-1' },
      { do: 'seat-member', seat: 'E6-3', member: 'M-104' },
    )
    expect(sentences(moved, 'E6-3')).toEqual(['Air pack: missing.', 'Cylinder: missing.'])
  })
})
