// Which platoon works which day; published day patterns, never a department's calendar.
import { addDays, daysBetween, type LocalDate } from './time.ts'

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
  worked?: readonly Worked[],
): string[] {
  const [shift] = shiftsOf(rotation, platoons, worked)
  return workingOn(rotation, platoons, date, shift).map(({ platoon }) => platoon)
}

/** A 10/14 day ends and its night begins this many hours after the station's hour. */
const DAY_HOURS = 10
/** Officers come on early: from an hour before the hour on it is the new tour. */
const EARLY_MINUTES = 60

const minutesOf = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5))

/** The date and the half of the day that a tour begun now would have; before the station's hour it is still yesterday's. */
export function tourAt(starts: string, date: LocalDate, clock: string): { on: LocalDate; isNight: boolean } {
  const since = minutesOf(clock) - minutesOf(starts) + EARLY_MINUTES
  if (since < 0) return { on: addDays(date, -1), isNight: true }
  return { on: date, isNight: since >= DAY_HOURS * 60 }
}

interface Worked {
  platoon: string
  on: LocalDate
}

/** So many of the newest tours are enough to tell one calendar from another, however the pattern runs. */
export const READ_OFF = 24

/**
 * Whose turn it is: where day and night are worked by two platoons, that of the half of the day. Nobody's that is known,
 * where the tours worked would agree with the turn of several: before the first of them that is so of every platoon.
 */
export const turnOn = (
  rotation: string,
  platoons: readonly string[],
  { on, isNight }: { on: LocalDate; isNight: boolean },
  worked?: readonly Worked[],
): string | undefined => {
  if (!ROTATIONS[rotation]) return undefined
  const wanted = isNight ? 'XN' : 'XD'
  const turnBy = (shift: number): string | undefined =>
    workingOn(rotation, platoons, on, shift).find(({ duty }) => wanted.includes(duty))?.platoon
  const turns = new Set(shiftsOf(rotation, platoons, worked).map(turnBy))
  return turns.size === 1 ? [...turns][0] : undefined
}

/** Whose turn it is; on which date and whether it is the night's, where the tours worked tell that. */
export interface Turn {
  platoon: string
  on?: LocalDate
  isNight?: boolean
}

/** Who comes on after a tour, and when: the next turn that is another platoon's. Nobody that is known, as in `turnOn`. */
export function turnAfter(
  rotation: string,
  platoons: readonly string[],
  tour: Worked,
  worked?: readonly Worked[],
): Turn | undefined {
  if (!ROTATIONS[rotation]) return undefined
  const [next, ...others] = shiftsOf(rotation, platoons, worked).map((shift) =>
    nextBy(rotation, platoons, tour, shift),
  )
  if (!next || others.some((each) => each?.platoon !== next.platoon)) return undefined
  const isSure = others.every((each) => each?.on === next.on && each?.isNight === next.isNight)
  return isSure ? next : { platoon: next.platoon }
}

function nextBy(
  rotation: string,
  platoons: readonly string[],
  { platoon, on }: Worked,
  shift: number,
): Required<Turn> | undefined {
  const turnsOn = (date: LocalDate): Required<Turn>[] =>
    workingOn(rotation, platoons, date, shift).map((each) => ({
      platoon: each.platoon,
      on: date,
      isNight: each.duty === 'N',
    }))
  const today = turnsOn(on)
  const own = today.findIndex((each) => each.platoon === platoon)
  const later = [1, 2, 3].flatMap((days) => turnsOn(addDays(on, days)))
  // Whoever works on a day that is not theirs is relieved by the next day's.
  const turns = [...(own < 0 ? [] : today.slice(own + 1)), ...later]
  return turns.find((each) => each.platoon !== platoon)
}

/** The clock at which a turn begins, at a station whose days start at `starts`. */
export function turnStarts(starts: string, { isNight }: Pick<Turn, 'isNight'>): string {
  const minutes = (minutesOf(starts) + (isNight ? DAY_HOURS * 60 : 0)) % (24 * 60)
  const two = (number: number): string => String(number).padStart(2, '0')
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`
}

/** The platoons at work on a day, the day's before the night's. */
const workingOn = (rotation: string, platoons: readonly string[], date: LocalDate, shift: number) =>
  platoons
    .slice(0, ROTATIONS[rotation]!.offsets.length)
    .map((platoon, index) => ({ platoon, duty: dutyOn(rotation, index, date, shift) }))
    .filter(({ duty }) => duty !== 'O')
    .toSorted((a, b) => Number(a.duty === 'N') - Number(b.duty === 'N'))

/**
 * How many days a department's own calendar may stand off the one counted here, the fewest first: all that agree with most
 * of the tours it has worked, or none where the pattern itself is asked for. Trades and overtime do not move a platoon, so a
 * few odd tours do not count.
 */
function shiftsOf(
  rotation: string,
  platoons: readonly string[],
  worked: readonly Worked[] | undefined,
): [number, ...number[]] {
  if (!worked) return [0]
  const { pattern } = ROTATIONS[rotation]!
  const agreeing = (shift: number): number =>
    worked.filter(({ platoon, on }) => {
      const index = platoons.indexOf(platoon)
      return index >= 0 && dutyOn(rotation, index, on, shift) !== 'O'
    }).length
  const shifts = [...pattern].map((_, shift) => ({ shift, agreeing: agreeing(shift) }))
  const most = Math.max(...shifts.map((each) => each.agreeing))
  return shifts.filter((each) => each.agreeing === most).map((each) => each.shift) as [number, ...number[]]
}

/** How many days a platoon stays once it has come on: 48/96 works two days running. One for a rotation not known. */
export function tourDays(rotation: string | undefined): number {
  const { pattern } = ROTATIONS[rotation ?? ''] ?? { pattern: 'X' }
  return Math.max(1, ...pattern.split(/[^X]+/).map((run) => run.length))
}
