// The signs of the states: told apart by word, by symbol and in ASCII, each alone.
import { describe, expect, it } from 'vitest'
import { sayState } from '../../src/domain/board.ts'
import { CONDITIONS } from '../../src/domain/policy/shape.ts'
import { CAUTIONS, SIGNS, symbolOf, type Shown } from '../../src/domain/signs.ts'

const all: Shown[] = [...CONDITIONS, 'unfilled']
const distinct = (say: (shown: Shown) => string) => new Set(all.map(say)).size

describe('the signs', () => {
  it('tell every state apart by word alone, by symbol alone and in ASCII alone', () => {
    expect(distinct((shown) => SIGNS[shown].word)).toBe(all.length)
    expect(distinct((shown) => symbolOf(shown, true))).toBe(all.length)
    expect(distinct((shown) => symbolOf(shown, false))).toBe(all.length)
    expect(all.filter((shown) => !/^[!-~]$/.test(symbolOf(shown, false)))).toEqual([])
  })

  it('are said as symbol and word together', () => {
    expect(sayState('out-of-service', true)).toBe('■ out of service')
    expect(sayState('out-of-service', false)).toBe('# out of service')
  })

  it('are loud for exactly the states that may not ride', () => {
    expect(all.filter((shown) => SIGNS[shown].tone === 'bad')).toEqual([
      'out-of-service',
      'missing',
      'expired',
      'unproven',
    ])
  })

  it('come with cautions that are whole sentences and promise no certificate', () => {
    expect(CAUTIONS.filter((caution) => !/^[A-Z].*\.$/.test(caution))).toEqual([])
    expect(CAUTIONS.join(' ')).toContain('It does not certify gear.')
  })
})
