// `bayboard schema`: JSON Schema that other programs can check commands and outputs with.
import { z } from 'zod'
import { describe, expect, test } from 'vitest'
import { commandShape } from '../../src/domain/commands.ts'
import { bayboard, journalOf, lines } from './run.ts'
import { fitStation } from './two-seats.ts'

const shapeOf = (name: string) => z.fromJSONSchema(JSON.parse(bayboard(['schema', name]).stdout))

describe('schema', () => {
  test.each(['command', 'journal', 'status', 'readiness-log', 'overlay', 'plan', 'coverage'])(
    '%s is JSON Schema of the 2020-12 draft, and reads back as a shape',
    (name) => {
      const { status, stdout } = bayboard(['schema', name])
      expect(status).toBe(0)
      const told = JSON.parse(stdout) as z.core.JSONSchema.JSONSchema
      expect(told.$schema).toBe('https://json-schema.org/draft/2020-12/schema')
      expect(z.fromJSONSchema(told).safeParse('no object').success).toBe(false)
    },
  )

  test.each([
    [['schema'], 'Name the schema.'],
    [['schema', 'nope'], 'There is no schema nope.'],
  ])('%j says which schemas there are', (args, says) => {
    const { status, stderr } = bayboard(args)
    expect(status).toBe(2)
    expect(stderr).toContain(`${says} Choose one of: bag-tags, care-slip, command,`)
  })

  test('the schema of a command names every command there is', () => {
    const { oneOf } = JSON.parse(bayboard(['schema', 'command']).stdout) as {
      oneOf: { properties: { do: { const: string } } }[]
    }
    expect(oneOf.map((each) => each.properties.do.const)).toEqual(
      commandShape.options.map((each) => each.shape.do.value),
    )
  })

  test('a schema and an output agree: the status and the journal are what their schemas say', () => {
    const station = fitStation()
    const told: unknown = JSON.parse(bayboard(['status', '--json'], { station }).stdout)
    expect(shapeOf('status').safeParse(told).error).toBeUndefined()
    const journal = shapeOf('journal')
    for (const line of lines(journalOf(station))) {
      expect(journal.safeParse(JSON.parse(line)).error).toBeUndefined()
    }
  })

  test('one there is not is wrong usage that names those there are', () => {
    expect(bayboard(['schema', 'constructor'])).toEqual({
      status: 2,
      stdout: '',
      stderr:
        'bayboard: There is no schema constructor. Choose one of: bag-tags, care-slip, command, coverage, element-record, forecast, inspection, journal, labels, out-of-service-tags, overlay, plan, readiness-log, status.\n',
    })
  })
})
