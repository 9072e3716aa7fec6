// Which platoon works which day; published day patterns, never a department's calendar.
import { daysBetween, type LocalDate } from './time.ts'

interface Rotation {
  /** One letter a day: X works, D works the day, N works the night, O is off. */
  pattern: string
  /** How many days after the first day of the calendar each platoon begins the pattern. */
  offsets: number[]
}

/** Every set of offsets covers every day exactly once. Source: published rotation patterns, arithmetic checked in the tests. */
export const ROTATIONS: Readonly<Record<string, Rotation>> = {
  '24/48': { pattern: 'XOO', offsets: [0, 1, 2] },
  '48/96': { pattern: 'XXOOOO', offsets: [0, 2, 4] },
  'nine-day': { pattern: 'XOXOXOOOO', offsets: [0, 3, 6] },
  '24/72': { pattern: 'XOOO', offsets: [0, 1, 2, 3] },
  '1-1-1-5': { pattern: 'XOXOOOOO', offsets: [0, 1, 4, 5] },
  '48/144': { pattern: 'XXOOOOOO', offsets: [0, 2, 4, 6] },
  '10/14': { pattern: 'DDNNOOOO', offsets: [0, 2, 4, 6] },
}
export const ROTATION_NAMES = Object.keys(ROTATIONS)

/** The day from which the patterns count where nothing is known of a department's own calendar. */
const EPOCH: LocalDate = '2024-01-01'

/** What a platoon (by its place in the order of platoons) does on a day: X, D, N or O; `shift` moves the calendar. */
export function dutyOn(rotation: string, platoonIndex: number, date: LocalDate, shift = 0): string {
  const { pattern, offsets } = ROTATIONS[rotation]!
  const days = daysBetween(EPOCH, date) - (offsets[platoonIndex % offsets.length] ?? 0) + shift
  const length = pattern.length
  return pattern.charAt(((days % length) + length) % length)
}

/** The platoons on duty on a day, in the order given; with 10/14 there are two, day and night. */
export function onDuty(
  rotation: string,
  platoons: readonly string[],
  date: LocalDate,
  worked: readonly { platoon: string; on: LocalDate }[] = [],
): string[] {
  const { offsets } = ROTATIONS[rotation]!
  const shift = shiftOf(rotation, platoons, worked)
  return platoons.slice(0, offsets.length).filter((_, index) => dutyOn(rotation, index, date, shift) !== 'O')
}

/**
 * How many days a department's own calendar stands off the one counted here: the fewest that agree with most of the
 * tours it has worked. Trades and overtime do not move a platoon, so a few odd tours do not count.
 */
function shiftOf(
  rotation: string,
  platoons: readonly string[],
  worked: readonly { platoon: string; on: LocalDate }[],
): number {
  const { pattern } = ROTATIONS[rotation]!
  const agreeing = (shift: number): number =>
    worked.filter(({ platoon, on }) => {
      const index = platoons.indexOf(platoon)
      return index >= 0 && dutyOn(rotation, index, on, shift) !== 'O'
    }).length
  const shifts = [...pattern].map((_, shift) => ({ shift, agreeing: agreeing(shift) }))
  return shifts.reduce((best, each) => (each.agreeing > best.agreeing ? each : best)).shift
}

/** How many days a platoon stays once it has come on: 48/96 works two days running. One for a rotation not known. */
export function tourDays(rotation: string | undefined): number {
  const { pattern } = ROTATIONS[rotation ?? ''] ?? { pattern: 'X' }
  return Math.max(1, ...pattern.split(/[^X]+/).map((run) => run.length))
}
