// A station in a temporary folder, opened as a session by the real store with a clock in the test's hand; it must never write a file itself.
import type { Command } from '../../src/domain/commands.ts'
import { openSession, type Session } from '../../src/session.ts'
import type { Files } from '../../src/store/files.ts'
import { makeStation, openStation } from '../../src/store/station.ts'
import { bytesIn, newFolder } from './station-folder.ts'

export const ZONE = 'America/New_York'
export const MADE_AT = '2026-11-24T06:00:00.000-05:00'
export const FACTS = {
  format: 1 as const,
  name: 'Larch Hill',
  timeZone: ZONE,
  rotation: '24/48',
  starts: '07:00',
  policy: 'nfpa-1851-2020',
}

/** Seven in the morning in New York; a test moves it. */
export const clockAt = (text = '2026-11-24T12:00:00Z') => {
  const clock = Object.assign(() => clock.ms, { ms: Date.parse(text) })
  return clock
}
export type Clock = ReturnType<typeof clockAt>

export async function newStation(facts = FACTS): Promise<string> {
  const folder = newFolder()
  const trouble = await makeStation(folder, facts, MADE_AT)
  if (trouble) throw new Error(trouble.sentence)
  return folder
}

export async function sessionIn(folder: string, clock: () => number = clockAt(), files?: Files) {
  const keeper = await openStation(folder, files)
  if ('sentence' in keeper) throw new Error(keeper.sentence)
  return openSession(keeper, clock)
}

export const member = (id: string, at?: string): Command => ({
  do: 'add-member',
  by: 'setup',
  member: { id, name: `Member ${id}`, platoon: 'B' },
  ...(at !== undefined && { at }),
})
export const rig: Command = {
  do: 'add-rig',
  by: 'setup',
  rig: { id: 'E6', name: 'Engine 6', minimum: 1, seats: [{ id: 'E6-1', position: 'Officer' }] },
}
export const note = (text: string, at?: string): Command => ({
  do: 'note',
  by: 'M-104',
  text,
  ...(at !== undefined && { at }),
})
export const seat = (id: string): Command => ({ do: 'seat-member', by: 'M-104', seat: 'E6-1', member: id })

/** Records commands that must all be taken. */
export async function recorded(session: Session, ...commands: Command[]): Promise<void> {
  for (const answer of await Promise.all(commands.map((command) => session.submit(command)))) {
    if (!('accepted' in answer)) throw new Error(Object.values(answer).join())
  }
}
/** Every entry of the journal, as it stands in the file. */
export const entriesIn = (folder: string) =>
  bytesIn(folder)
    .toString()
    .trimEnd()
    .split('\n')
    .map((line): { seq: number; at: string; type: string; data: Record<string, unknown> } => JSON.parse(line))

/** The texts of the notes in the books. */
export const notesIn = ({ state }: Session): string[] => state.notes.map((each) => each.text)
