// Rules that hold for every command; it must fail when a command has no test group of its own.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { COMMAND_NAMES } from '../../../src/domain/commands.ts'
import { decide } from '../../../src/domain/decide.ts'
import { emptyState } from '../../../src/domain/state.ts'
import { wellFormed } from '../any-commands.ts'
import { house, members } from '../alder-hollow.ts'
import { given, NOW, STATION } from '../given.ts'

const here = new URL('.', import.meta.url)
const source = readdirSync(here)
  .filter((name) => name.endsWith('.test.ts') && name !== 'every-command.test.ts')
  .map((name) => readFileSync(new URL(name, here), 'utf8'))
  .join('\n')

/** What a command's own group of tests asks: that it records, that it refuses, that a refusal changes nothing. */
function groupOf(name: string, text: string): string[] {
  const group = text.split(/^describe\(/m).find((each) => each.startsWith(`'${name}',`)) ?? ''
  return ['.records(', '.refuses(', '.changesNothing('].filter((each) => group.includes(each))
}

test.each(COMMAND_NAMES)(
  '%s has tests that it records, that it refuses and that a refusal changes nothing',
  (name) => {
    expect(groupOf(name, source)).toHaveLength(3)
  },
)

test('a command without its group, or with half of one, would be found', () => {
  expect(groupOf('note', "describe('tag', () => { x.records().refuses().changesNothing() })")).toEqual([])
  expect(groupOf('note', "describe('note', () => { x.records() })")).toEqual(['.records('])
})

describe('who gives it', () => {
  test.each(COMMAND_NAMES)('%s by a stranger is refused', (name) => {
    given(house)
      .when({ ...wellFormed[name], by: 'M-999' })
      .refuses('There is no member M-999 in this station. Nothing was recorded.')
      .changesNothing()
  })

  const settingUp = ['add-rig', 'add-member', 'add-element', 'issue', 'import-gear']
  const asSetup = '"setup" may only set up and import. Give the id of the member who does this in "by".'
  test.each(COMMAND_NAMES)('%s by setup is for describing the station, not for acting in a tour', (name) => {
    const decision = decide({ ...wellFormed[name], by: 'setup', at: NOW }, given(house).state)
    expect('refused' in decision && decision.refused === asSetup).toBe(!settingUp.includes(name))
  })

  test('care and fit tests of the time before the station was made come with the setting up; later ones need a name', () => {
    const care = (on: string) => ({
      do: 'record-care',
      by: 'setup',
      element: 'C-1041',
      care: 'advanced-cleaning',
      on,
      result: 'serviceable',
    })
    const made = STATION.at.slice(0, 10)
    given(house).when(care('2025-12-31')).records('care-recorded', {
      element: 'C-1041',
      care: 'advanced-cleaning',
      on: '2025-12-31',
      result: 'serviceable',
    })
    given(house).when(care(made)).refuses(asSetup).changesNothing()
  })

  test('before the first member joins, setup may do anything; after, not', () => {
    const note = { do: 'note', by: 'setup', text: 'keys are in the drawer' }
    given().when(note).records('note-made', { text: 'keys are in the drawer' })
    given(members).when(note).refuses(asSetup).changesNothing()
  })
})

test.each(COMMAND_NAMES)('%s needs a station', (name) => {
  expect(decide({ ...wellFormed[name], by: 'setup', at: NOW }, emptyState())).toEqual({
    refused: 'There is no station here yet. Make one with: bayboard init',
  })
})
