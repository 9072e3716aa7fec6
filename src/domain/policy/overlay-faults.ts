// What is wrong with how an overlay is written, each fault by the rule it stands at; it must never judge what a rule asks.
import type * as z from 'zod'
import { sayIssue } from '../shape-error.ts'
import { overlayShape } from './shape.ts'

/** What a place that may be written in several ways asks for. */
const WAYS: Readonly<Record<string, string>> = {
  limit: 'must be a duration such as P10Y, P6M or P60D, or one for each construction of a cylinder',
  watch: 'is nothing that a rule can look at; "bayboard schema overlay" lists what there is',
}
const PARTS = {
  changes: { named: 'The change of', nth: 'Change' },
  add: { named: 'The added rule', nth: 'Added rule' },
} as const

/** One sentence a fault. */
export const writingFaults = (error: z.ZodError, input: unknown): string[] =>
  error.issues.map((issue) => sayFault(issue, input))

function sayFault(issue: z.core.$ZodIssue, input: unknown): string {
  const [part, index, ...rest] = issue.path
  const name = rest.map(String).join('.')
  const isListed = (part === 'changes' || part === 'add') && typeof index === 'number'
  if (!isListed) return sayIssue(issue, issue.path.length ? issue.path.map(String).join('.') : 'An overlay')
  const entry = sayEntry(input, part, index)
  if (issue.code === 'invalid_type' && issue.message.includes('received undefined')) {
    const why = name === 'reason' ? ': say why the department departs from the base' : ''
    return `${entry} has no ${name}${why}.`
  }
  if (issue.code === 'unrecognized_keys') {
    return `${sayIssue(issue, [entry, ...rest].join(', '))} A ${part === 'add' ? 'rule' : 'change'} holds: ${membersOf(part)}.`
  }
  if (issue.code === 'invalid_union') return `${entry}: ${name} ${WAYS[name] ?? 'cannot be read'}.`
  return rest.length ? `${entry}: ${sayIssue(issue, name)}` : sayIssue(issue, entry)
}

const membersOf = (part: keyof typeof PARTS): string =>
  Object.keys(overlayShape.shape[part].unwrap().element.shape).join(', ')

/** The rule as the file names it, else which of the list it is. */
function sayEntry(input: unknown, part: keyof typeof PARTS, index: number): string {
  const id = (input as Record<string, ({ id?: unknown } | null)[]>)[part]?.[index]?.id
  const { named, nth } = PARTS[part]
  return typeof id === 'string' && id !== '' ? `${named} ${id}` : `${nth} ${index + 1}`
}
