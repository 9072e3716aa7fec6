// `bayboard policy`: the rules with their sources; an overlay is checked without a trace and adopted as one event.
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { BASES, DEFAULT_BASE } from '../../src/domain/policy/bases.ts'
import { bayboard, fileWith, journalOf, lines, newPlace, recorded } from './run.ts'
import { emptyStation } from './two-seats.ts'

let station = ''
beforeEach(() => {
  station = emptyStation()
})
const policy = (...args: string[]) => bayboard(['policy', ...args], { station })
const overlayFile = (...changes: object[]): string =>
  fileWith(JSON.stringify({ name: 'Larch Hill', changes, add: [] }), 'overlay.json')
const README_OVERLAY = /```json\n(\{\n {2}"name"[^]*?)```/.exec(readFileSync('README.md', 'utf8'))![1]!
const {
  add: [added],
} = JSON.parse(README_OVERLAY) as { add: [object] }
const tighter = { id: 'structural-service-life', limit: 'P8Y', reason: 'Our chief decided so.' }
const looser = { id: 'flow-test-interval', warn: 'P14D', reason: 'The bench is next door.' }

test('show names every rule of the base with its source and how sure it is, and so does "policy" alone', () => {
  const { status, stdout } = policy('show')
  expect(status).toBe(0)
  for (const { id, source } of BASES.get(DEFAULT_BASE)!.rules) {
    const [, told] = stdout.split(`\n${id} (`)
    expect(told?.split('\n\n')[0]).toContain(`Source: ${source.document}`)
    expect(told?.split('\n\n')[0]).toContain(`(${source.standing}).`)
  }
  expect(policy().stdout).toBe(stdout)
})

describe('check', () => {
  test('of a sound overlay ends with 0 and changes nothing', () => {
    const before = journalOf(station)
    const { status, stdout } = policy('check', overlayFile(tighter, looser))
    expect(status).toBe(0)
    expect(stdout).toContain('can be adopted: 2 rules changed, 0 added.')
    expect(journalOf(station)).toBe(before)
  })

  test('says each rule that would be looser than the published base, and how; or that none is', () => {
    const off = { id: 'wet', off: true, reason: 'We have a drying room.' }
    expect(lines(policy('check', overlayFile(tighter, looser, off)).stdout).slice(1)).toEqual([
      'Looser than the published base: flow test interval: warns 14 days ahead, not 30 days (The bench is next door.).',
      'Looser than the published base: wet: switched off (We have a drying room.).',
    ])
    expect(lines(policy('check', overlayFile(tighter)).stdout).slice(1)).toEqual([
      'No rule is looser than the published base.',
    ])
  })

  test.each([
    ['a rule there is not', overlayFile({ id: 'no-such-rule', limit: 'P1Y', reason: 'x' }), /no-such-rule/],
    ['no reason', overlayFile({ id: 'fit-test', limit: 'P6M' }), /reason/],
    ['a limit that is no duration', overlayFile({ ...tighter, limit: '8 years' }), /limit/],
    ['a word it does not know', fileWith('{"name":"X","changes":[],"add":[],"bonus":1}'), /bonus/],
    ['a list in place of an overlay', fileWith('[]'), /object/],
  ])('of one with %s ends with 1 and names the fault; it cannot be adopted either', (_, file, words) => {
    const before = journalOf(station)
    for (const name of ['check', 'adopt']) {
      const { status, stdout, stderr } = policy(name, file)
      expect({ status, stdout }).toEqual({ status: 1, stdout: '' })
      expect(stderr).toMatch(words)
      expect(lines(stderr).at(-1)).toBe(`bayboard: ${file} cannot be adopted: 1 fault. Nothing was changed.`)
    }
    expect(journalOf(station)).toBe(before)
  })

  test('names each fault by its rule, in the words of who has to mend it', () => {
    const file = fileWith(
      JSON.stringify({
        name: 'Larch Hill',
        changes: [{ id: 'fit-test', limit: '8 years' }, { id: 'wet', limt: 'P1Y', reason: 'x' }, 7],
        add: [{ ...added, kinds: [], watch: { since: 'never' } }],
      }),
    )
    expect(lines(policy('check', file).stderr).slice(0, -1)).toEqual([
      'The change of fit-test: limit must be a duration such as P10Y, P6M or P60D.',
      'The change of fit-test has no reason: say why the department departs from the base.',
      'The change of wet holds something not asked for: limt. A change holds: id, limit, first, warn, past, off, reason.',
      'Change 3 must be an object.',
      'The added rule hood-inspection: kinds must name at least 1.',
      'The added rule hood-inspection: watch is nothing that a rule can look at; "bayboard schema overlay" lists what there is.',
    ])
  })

  test('the overlay of the README can be copied as it stands', () => {
    const example = fileWith(README_OVERLAY, 'overlay.json')
    expect(policy('check', example)).toMatchObject({
      status: 0,
      stdout: expect.stringContaining('can be adopted: 1 rule changed, 1 added.'),
      stderr: '',
    })
    expect(policy('adopt', example).status).toBe(0)
    const shown = policy('show').stdout
    expect(shown).toContain('Changed by the department: Our washer is free')
    expect(shown).toContain('Added by the department: We wash hoods after every fire.')
  })

  test.each([
    ['is not there', join(newPlace(), 'none.json'), /it is not there \(ENOENT\)/],
    ['is a folder', newPlace(), /there is a folder in its place \(EISDIR\)/],
    ['is not JSON', fileWith('{"name": \u001b[2J'), /it is not JSON/],
  ])('of a file that %s ends with 3', (_, file, words) => {
    const { status, stderr } = policy('check', file)
    expect(status).toBe(3)
    expect(stderr).toMatch(words)
    expect(stderr).not.toContain('\u001b')
  })
})

describe('adopt', () => {
  test('records one event that carries the overlay, keeps a copy to read, and puts it in force', () => {
    const { status, stdout } = policy('adopt', overlayFile(tighter, looser))
    expect({ status, stdout }).toEqual({ status: 0, stdout: 'Adopted "Larch Hill" as event 2.\n' })
    expect(JSON.parse(lines(journalOf(station))[1]!)).toMatchObject({
      by: 'setup',
      type: 'policy-adopted',
      data: { overlay: { name: 'Larch Hill', changes: [tighter, looser] } },
    })
    const copy: unknown = JSON.parse(readFileSync(join(station, 'policy', 'overlay.json'), 'utf8'))
    expect(copy).toMatchObject({ name: 'Larch Hill', changes: [tighter, looser] })
    const shown = policy('show').stdout
    expect(shown).toContain('Changed by the department: Our chief decided so.')
    expect(shown).toMatch(/flow-test-interval[^]*LOOSER than the base/)
  })

  test('once there are members, needs the member who adopts it', () => {
    recorded(station, [{ do: 'add-member', by: 'setup', member: { id: 'M-104', name: 'Ada Varga' } }])
    const before = journalOf(station)
    const refused = policy('adopt', overlayFile(tighter))
    expect(refused).toMatchObject({ status: 2, stderr: expect.stringContaining('--by') })
    expect(policy('adopt', overlayFile(tighter), '--by', 'M-999').status).toBe(1)
    expect(journalOf(station)).toBe(before)
    expect(policy('adopt', overlayFile(tighter), '--by', 'M-104').status).toBe(0)
    expect(JSON.parse(lines(journalOf(station)).at(-1)!)).toMatchObject({ by: 'M-104' })
  })

  test('where only the copy cannot be kept, it is in force and says so', () => {
    writeFileSync(join(station, 'policy'), 'a file in its place')
    const { status, stdout, stderr } = policy('adopt', overlayFile(tighter))
    expect({ status, stdout }).toEqual({ status: 0, stdout: 'Adopted "Larch Hill" as event 2.\n' })
    expect(stderr).toMatch(/^bayboard: It is in force, but the copy to read was not kept: /)
    expect(lines(stderr)).toHaveLength(1)
  })
})
