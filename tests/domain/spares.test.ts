// Which spares are proposed for a place, in what order, with which layers, and with what said for and against them.
import { describe, expect, it } from 'vitest'
import type { Kind } from '../../src/domain/kinds.ts'
import { policyOf } from '../../src/domain/policy/in-force.ts'
import { rankSpares, type Spare } from '../../src/domain/spares.ts'
import type { State } from '../../src/domain/state.ts'
import { coat, fitCrew, garment, sendsAway, tags } from './fit-crew.ts'
import { NOW, type Steps, type Told } from './given.ts'

const rank = (state: State, kind: Kind, seat = 'E6-1', at = NOW): Spare[] =>
  rankSpares(state, policyOf(state), at, seat, kind)
const idsOf = ({ elements }: Spare) => elements.map((each) => each.id).join('+')
const order = (kind: Kind, ...steps: Steps) => rank(fitCrew(...steps), kind).map(idsOf)

const coatTorn = tags('CS-1', 'safety')

describe('a spare coat shell', () => {
  it('brings its own liner and drag rescue device, since they are one assembly', () => {
    const [spare] = rank(fitCrew(coatTorn, coat('9')), 'coat-shell')
    expect(idsOf(spare!)).toBe('CS-9+CL-9+DR-9')
    expect(spare).toMatchObject({ fits: true, exact: true, state: 'ready', against: [] })
    expect(spare!.for).toEqual([
      'size 44x32, exact',
      'with coat liner CL-9 and drag rescue device DR-9',
      'in date to 1 Mar 2027',
    ])
  })

  it('without its liner on the rack does not fit: it would be worn over another liner', () => {
    const [spare] = rank(fitCrew(garment('coat-shell', '9')), 'coat-shell')
    expect(spare!.fits).toBe(false)
    expect(spare!.against).toContain(
      'Coat liner CL-1: assembly A-1 does not match coat shell CS-9 of assembly A-9.',
    )
  })

  it('of the assembly already worn comes alone', () => {
    expect(order('coat-shell', garment('coat-shell', '9', { assembly: 'A-1' }))).toEqual(['CS-9'])
  })

  it('that asks for a drag rescue device which nobody has does not fit', () => {
    const layers = [...garment('coat-shell', '9'), ...garment('coat-liner', '9')]
    const [spare] = rank(fitCrew(sendsAway('DR-1'), layers), 'coat-shell')
    expect([spare!.fits, spare!.state]).toEqual([false, 'missing'])
    expect(spare!.against).toEqual(['Drag rescue device: missing, and coat shell CS-9 of 2018 needs one.'])
  })

  it('labelled before 2007 needs none', () => {
    const layers = [...garment('coat-shell', '9', { edition: '1971-2000' }), ...garment('coat-liner', '9')]
    expect(rank(fitCrew(sendsAway('DR-1'), layers), 'coat-shell')[0]).toMatchObject({
      fits: true,
      against: [],
    })
  })
})

describe('a spare liner', () => {
  it('goes alone only into its own assembly', () => {
    const own = garment('coat-liner', '9', { assembly: 'A-1' })
    expect(rank(fitCrew(own), 'coat-liner')[0]).toMatchObject({ fits: true, elements: [{ id: 'CL-9' }] })
  })
  it('of another assembly brings its shell and device, and comes after the one that goes alone', () => {
    expect(order('coat-liner', coat('8'), garment('coat-liner', '9', { assembly: 'A-1' }))).toEqual([
      'CL-9',
      'CL-8+CS-8+DR-8',
    ])
  })
  it('of another assembly whose shell is not there does not fit', () => {
    expect(rank(fitCrew(garment('coat-liner', '9')), 'coat-liner')[0]).toMatchObject({
      fits: false,
      state: 'out-of-service',
    })
  })
  it('of an unknown assembly does not fit', () => {
    const [step, ...cares] = garment('coat-liner', '9') as [Extract<Told, { do: 'add-element' }>, ...Told[]]
    const { assembly: _, ...element } = step.element
    const [spare] = rank(fitCrew({ ...step, element }, cares), 'coat-liner')
    expect([spare!.fits, spare!.state]).toEqual([false, 'unproven'])
  })
})

describe('the order', () => {
  it('is fit before unfit, exact before larger, and the smaller last', () => {
    const sizes = [coat('5', { size: '42x32' }), coat('6', { size: '46x32' }), coat('7')]
    const spares = rank(fitCrew(...sizes), 'coat-shell')
    expect(spares.map((each) => [each.elements[0].id, each.fits, each.exact])).toEqual([
      ['CS-7', true, true],
      ['CS-6', true, false],
      ['CS-5', false, false],
    ])
    expect(spares[1]!.for[0]).toBe('size 46x32')
    expect(spares[2]!.against).toContain(
      'Coat shell CS-5: size 42x32 does not fit A. Varga, who takes 44x32.',
    )
  })

  it('is ready before due, though the one that is due lasts longer', () => {
    // Ten years warn 60 days ahead, a cleaning 30: on 24 November the life is due and the cleaning is not yet.
    const old = garment('boots', '3', { made: '2017-01' })
    const cleanedEarly = garment('boots', '4').map((step) =>
      step.do === 'record-care' && step.care === 'advanced-cleaning' ? { ...step, on: '2026-06-25' } : step,
    )
    const spares = rank(fitCrew(old, cleanedEarly), 'boots')
    expect(spares.map((each) => [idsOf(each), each.state, each.lasts])).toEqual([
      ['BO-4', 'ready', '2026-12-25'],
      ['BO-3', 'due', '2027-01-01'],
    ])
  })

  it('is the one in date longer first', () => {
    const later = { do: 'record-care', element: 'BO-4', care: 'advanced-cleaning', on: '2026-10-01' } as const
    expect(
      order('boots', garment('boots', '3'), garment('boots', '4'), { ...later, result: 'serviceable' }),
    ).toEqual(['BO-4', 'BO-3'])
  })

  it('of equals is by id, whichever was added first', () => {
    expect(order('hood', garment('hood', '4'), garment('hood', '3'))).toEqual(['HO-3', 'HO-4'])
    expect(order('hood', garment('hood', '3'), garment('hood', '4'))).toEqual(['HO-3', 'HO-4'])
  })
})

describe('a spare that is not fit is listed with the reason against it', () => {
  it.each<[string, Steps, string]>([
    ['tagged', [garment('boots', '3'), tags('BO-3')], 'Boots BO-3 is itself out of service: torn seam.'],
    [
      'too old',
      [garment('boots', '3', { made: '2016-03' })],
      'Boots BO-3: 10 years from manufacture ended on 28 Feb 2026.',
    ],
    [
      'in smoke',
      [
        garment('boots', '3'),
        { do: 'record-exposure', exposure: 'products-of-combustion', elements: ['BO-3'] },
      ],
      'Boots BO-3: exposed to products of combustion on 24 Nov 2026, needs advanced cleaning or specialised cleaning.',
    ],
  ])('%s', (_name, steps, sentence) => {
    const spares = rank(fitCrew(garment('boots', '9'), ...steps), 'boots')
    expect(spares.map(idsOf)).toEqual(['BO-9', 'BO-3'])
    expect(spares[1]!.fits).toBe(false)
    expect(spares[1]!.against[0]).toBe(sentence)
  })
})
