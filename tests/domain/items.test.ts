// Rules for what one officer leaves open to the next: nothing that is left to do is kept silent, and no line is stale.
import { describe, expect, test } from 'vitest'
import { openItems } from '../../src/domain/items.ts'
import { fitCrew, garment, sendsAway, tags } from './fit-crew.ts'
import type { Steps, Told } from './given.ts'

const itemsAfter = (...steps: Steps) => openItems(fitCrew(...steps))
const burnt: Told = {
  do: 'record-exposure',
  exposure: 'products-of-combustion',
  seats: ['E6-1'],
  incident: '26-0412',
}
const done = (element: string, care: 'advanced-cleaning' | 'function-check'): Told => ({
  do: 'record-care',
  element,
  care,
  on: '2026-11-24',
  result: 'serviceable',
})

describe('after a fire', () => {
  const checks = (...steps: Steps) =>
    itemsAfter(burnt, ...steps).filter((each) => each.id.startsWith('check-'))
  test('an air pack is open until its function is checked, though it was cleaned', () => {
    const [item] = checks(done('AP-1', 'advanced-cleaning'))
    expect(item).toMatchObject({
      about: ['AP-1'],
      words: 'Exposed to products of combustion at 26-0412 on 24 Nov 2026, function not checked since: AP-1.',
      ifThen:
        'If it is to be used again, its function is checked or its flow tested first, and that recorded.',
    })
    expect(checks(done('AP-1', 'function-check'))).toEqual([])
  })
  test('cleaned and checked, nothing of it is open', () => {
    const left = itemsAfter(burnt, done('AP-1', 'advanced-cleaning'), done('AP-1', 'function-check'))
    expect(left.flatMap((each) => each.about)).not.toContain('AP-1')
  })
  test('rain asks for no function check', () => {
    const wet = itemsAfter({ do: 'record-exposure', exposure: 'water', seats: ['E6-1'] })
    expect(wet.map((each) => each.id)).toEqual([expect.stringMatching(/^exposure-/)])
  })
  test('a helmet held as evidence is not to be cleaned, and no item says so', () => {
    const items = itemsAfter(burnt, { do: 'hold', element: 'HE-1', reason: 'injury on 22 Nov' })
    expect(items.filter((each) => each.about.includes('HE-1')).map((each) => each.id)).toEqual(['held-HE-1'])
  })
})

describe('a spare that stands in', () => {
  const swap: Told = { do: 'swap', seat: 'E6-1', out: 'HE-1', in: 'HE-9' }
  const standIn = (...steps: Steps) =>
    itemsAfter(garment('helmet', '9'), tags('HE-1'), swap, ...steps).find(
      (each) => each.id === 'stand-in-HE-9',
    )!

  test('says what has to become of the own one, and that it is here once it is', () => {
    expect(standIn().ifThen).toBe(
      'If HE-1 is put right and its tag lifted, swap it back; the spare returns to the rack.',
    )
    expect(standIn(sendsAway('HE-1')).ifThen).toBe(
      'If HE-1 comes back and is good, swap it back; the spare returns to the rack.',
    )
    expect(standIn({ do: 'lift-tag', element: 'HE-1', basis: 'inspected, sound' }).ifThen).toBe(
      'HE-1 is here. If it is good, swap it back; the spare returns to the rack.',
    )
  })

  test('is where its wearer rides now, not where they rode when it went in', () => {
    const left: Told = { do: 'clear-seat', seat: 'E6-1' }
    expect(standIn().words).toBe('Helmet HE-9 stands in for HE-1 at E6-1, with A. Varga (M-104).')
    expect(standIn(left).words).toBe(
      'Helmet HE-9 stands in for HE-1, with A. Varga (M-104), who rides nowhere now.',
    )
    expect(standIn(left, { do: 'seat-member', seat: 'E6-3', member: 'M-104' }).words).toBe(
      'Helmet HE-9 stands in for HE-1 at E6-3, with A. Varga (M-104).',
    )
  })
})
