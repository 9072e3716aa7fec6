// Cleans every text in a value on its way out; it must never change what the letters say, nor lose a member.
import { cleanText } from '../domain/clean.ts'

/** The same value with every text in it, and every name of a member, cleaned of controls and bidirectional marks. */
export function cleanAll<T>(value: T): T {
  if (typeof value === 'string') return cleanText(value) as T
  if (Array.isArray(value)) return value.map(cleanAll) as T
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [cleanText(key), cleanAll(each)])) as T
}
