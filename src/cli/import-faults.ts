// What is wrong with an imported file, by itself and in this station, and how it is refused; it must never hide one fault behind another.
import { count, toMend } from '../domain/count.ts'
import { rowFaults } from '../domain/decide/import-gear.ts'
import { recordFaults } from '../domain/decide/import-records.ts'
import { differenceOf, isAddition, type Difference } from '../domain/import-diff.ts'
import { dateOf } from '../domain/time.ts'
import type { Session } from '../session.ts'
import { sayFaults, type Fault } from '../store/imports/fault.ts'
import { lostZeros } from '../store/imports/lost-zeros.ts'
import { rowKey, type Read } from '../store/imports/read-gear.ts'
import { complain, type ExitStatus, type World } from './world.ts'

/** A screenful of faults or changes; the rest are counted. */
export const MOST_SHOWN = 200

/** What the station itself has against the rows: ids that are taken or lost their zeros, holders it does not know. */
export function faultsHere(read: Read, found: Difference, session: Session): Fault[] {
  const { state } = session
  const today = dateOf(session.now())
  const own = isAddition(found) ? rowFaults(found, state, today) : recordFaults(found, state, today)
  return [...lostZeros(read, state), ...own].map(({ column, says, ...row }) => ({
    line: read.lineOf.get(rowKey(row)) ?? 1,
    column: read.headings.get(column) ?? null,
    says,
  }))
}

/** Where some rows have faults of their own: whom these name is no fault of the rows that wait for them. */
export function faultsOfOthers(read: Read, session: Session): Fault[] {
  const whole = new Set([...read.members, ...read.elements].map(({ id }) => id))
  const isToCome = (id: string): boolean => read.lineOf.has(id) && !whole.has(id)
  const elements = read.elements.map(({ issuedTo, ...each }) =>
    issuedTo === undefined || isToCome(issuedTo) ? each : { ...each, issuedTo },
  )
  const others = { ...read, elements }
  return faultsHere(others, differenceOf(others, session.state), session)
}

export function refuseFile(world: World, path: string, faults: readonly Fault[]): ExitStatus {
  for (const sentence of sayFaults(faults, MOST_SHOWN)) world.stderr.write(`${sentence}\n`)
  const sentence = `${path} has ${count(faults.length, 'fault')}. Nothing was imported.`
  return complain(world, `${sentence} ${toMend(faults.length, 'import')}`, 1)
}
