// Ways to hand a test's spreadsheet to the import; it must never hold an expectation.
import { readFileSync } from 'node:fs'
import { readGear, type FileRead } from '../../../src/store/imports/read-gear.ts'
import { sayFaults, type Fault } from '../../../src/store/imports/fault.ts'

export const readText = (text: string, map?: Record<string, string>): FileRead =>
  readGear(Buffer.from(text), { file: 'gear.csv', ...(map && { map }) })

export const readFixture = (name: string, map?: Record<string, string>): FileRead =>
  readGear(readFileSync(new URL(`fixtures/${name}`, import.meta.url)), { file: name, ...(map && { map }) })

/** What a file without faults holds; a file with faults fails the test with their sentences. */
export function taken(read: FileRead): Exclude<FileRead, { faults: Fault[] }> {
  if ('faults' in read) throw new Error(sayFaults(read.faults, 20).join('\n'))
  return read
}

export function faultsOf(read: FileRead): Fault[] {
  if (!('faults' in read)) throw new Error(`No fault was found: ${JSON.stringify(read).slice(0, 500)}`)
  return read.faults
}

/** A file of one element, with the cell under the heading given. */
export const withCell = (heading: string, cell: string): string =>
  `ID,Type,${heading}\nX-1,${/pressure|construction/i.test(heading) ? 'Bottle' : 'Helmet'},"${cell.replaceAll('"', '""')}"\n`
