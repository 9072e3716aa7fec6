// What a shape refuses, as a sentence of the user's words; the checker's own terms must never get through.
import type * as z from 'zod'
import { cleanText } from './clean.ts'

/** What a shape asks for, in the user's words. */
const ASKED: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
  record: 'an object',
}

/** One sentence for the first thing that is wrong, naming the place: `element.made must be a year and month …`. */
export const sayShapeError = ({ issues: [issue] }: z.ZodError): string =>
  sayIssue(issue!, issue!.path.map(String).join('.'))

/** @param where what the user would call the place; empty for the whole. */
export function sayIssue(issue: z.core.$ZodIssue, where: string): string {
  const place = cleanText(where)
  if (issue.code === 'unrecognized_keys') {
    const keys = issue.keys.slice(0, 5).map((key) => cleanText(key).slice(0, 40))
    const more = issue.keys.length > keys.length ? ` and ${issue.keys.length - keys.length} more` : ''
    return `${place ? `${place} holds` : 'It holds'} something not asked for: ${keys.join(', ')}${more}.`
  }
  if (issue.code === 'invalid_type' && issue.message.includes('received undefined')) {
    return `${place || 'The command'} is missing.`
  }
  return `${place || 'It'} ${fault(issue)}.`
}

/** A shape's own words where it has some; otherwise what was asked for, never the checker's terms. */
function fault(issue: z.core.$ZodIssue): string {
  const isPlain = /^(must|cannot|is) /.test(issue.message)
  if (isPlain) return issue.message
  if (issue.code === 'invalid_type') return `must be ${ASKED[issue.expected] ?? issue.expected}`
  if (issue.code === 'invalid_value') {
    const [one, ...others] = issue.values.map(String)
    return others.length ? `must be one of: ${[one, ...others].join(', ')}` : `must be ${one}`
  }
  if (issue.code === 'too_small') {
    if (issue.origin === 'string') return 'must not be empty'
    if (issue.origin === 'array') return `must name at least ${issue.minimum}`
    return `must be ${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}`
  }
  if (issue.code === 'too_big') {
    if (issue.origin === 'string') return `is longer than ${issue.maximum} characters`
    if (issue.origin === 'array') return `must name at most ${issue.maximum}`
    return `must be ${issue.inclusive ? 'at most' : 'less than'} ${issue.maximum}`
  }
  return 'is not written in any of the ways it can be'
}
