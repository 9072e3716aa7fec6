// PINs as the books know them: what was proved, what was tried, how long to wait; a PIN itself never gets here.
import type { Command, Dated } from './commands.ts'
import { sayMember } from './decide/decision.ts'
import { record, refuse, type Decision } from './decide/decision.ts'
import type { Member, State } from './state.ts'
import { instantToMs, type Instant } from './time.ts'

/** What is kept of a PIN: scrypt (RFC 7914) of it, with the salt and the cost that it was made with. */
export interface KeptPin {
  scheme: 'scrypt'
  n: number
  r: number
  p: number
  /** Base64. */
  salt: string
  hash: string
}

/** What the session found out about a command before it is decided. */
export interface Proof {
  pin: 'none' | 'right' | 'wrong'
  /** When it was tried: the clock's own instant, whatever the command says of itself. */
  now: Instant
  /** The new PIN of `set-pin`, as it is to be kept. */
  made?: KeptPin
}

/** Wrong PINs of a member since the last right one. */
export interface PinTries {
  count: number
  last: Instant
}

/** What asks for the PIN of the member who gives it, if they have one. */
export const ASKS_PIN = ['hand-over', 'adopt-policy', 'set-pin', 'clear-pin'] as const
export type AsksPin = (typeof ASKS_PIN)[number]

const LONGEST_WAIT_S = 300

/** 1, 2, 4 seconds and so on after each wrong PIN, never more than five minutes. */
export const waitAfter = (wrong: number): number =>
  wrong === 0 ? 0 : Math.min(LONGEST_WAIT_S, 2 ** (wrong - 1))

/** Whole seconds until this member's PIN may be tried again. */
export function pinWait({ pinTries }: Member, now: Instant): number {
  if (!pinTries) return 0
  const sinceMs = instantToMs(now)! - instantToMs(pinTries.last)!
  const leftS = Math.ceil(waitAfter(pinTries.count) - sinceMs / 1000)
  // A clock that was set back would lock the member out for as long as it was wrong.
  return leftS <= 0 || leftS > 2 * LONGEST_WAIT_S ? 0 : leftS
}

export const isAsking = (command: { do: Command['do'] }): command is { do: AsksPin } =>
  (ASKS_PIN as readonly string[]).includes(command.do)

/** Must this command of theirs bring a PIN? For whoever asks for it before the command is given. */
export const asksPin = (state: State, by: string, name: Command['do']): boolean =>
  isAsking({ do: name }) && state.members.get(by)?.pin !== undefined

/** Nothing when the command may go on; a wrong PIN is refused and recorded. */
export function pinFault(command: Dated, state: State): Decision | undefined {
  const { proof, by } = command
  const member = state.members.get(by)
  // Without a proof this is a look ahead, and nothing of it is recorded.
  if (!proof || !member?.pin || !isAsking(command)) return undefined
  const waitS = pinWait(member, proof.now)
  const who = sayMember(state, by)
  if (waitS > 0) {
    return refuse(
      `The last PIN given for ${who} was wrong. Try again in ${waitS === 1 ? '1 second' : `${waitS} seconds`}. Nothing was recorded.`,
    )
  }
  if (proof.pin === 'right') return undefined
  if (proof.pin === 'none') {
    const field = command.do === 'set-pin' ? 'old' : 'pin'
    return refuse(`${who} has a PIN, and this asks for it: give it in "${field}". Nothing was recorded.`)
  }
  const tried = (member.pinTries?.count ?? 0) + 1
  return {
    refused: `That is not the PIN of ${who}. The log says that it was tried; the next try is possible in ${waitAfter(tried)} s.`,
    draft: { type: 'pin-refused', data: { member: by, for: command.do, tries: tried } },
  }
}

/** What a look ahead keeps: no PIN fits it. */
const NONE: KeptPin = { scheme: 'scrypt', n: 0, r: 0, p: 0, salt: '', hash: '' }

export const setPin = ({ by, proof }: Dated): Decision =>
  proof && !proof.made
    ? refuse('There is no PIN to keep. Nothing was recorded.')
    : record('pin-set', { member: by, pin: proof?.made ?? NONE })

/** A forgotten PIN is cleared by somebody else, and by one who has a PIN where anybody else has one. */
export function clearPin(
  { by, member: id, why }: { by: string; member: string; why: string },
  state: State,
): Decision {
  const member = state.members.get(id)
  if (!member) return refuse(`There is no member ${id} in this station.`)
  if (!member.pin) return refuse(`${sayMember(state, id)} has no PIN.`)
  if (id === by) {
    return refuse(`Another member has to clear a forgotten PIN. Who knows theirs sets a new one.`)
  }
  const isAnybody = [...state.members.values()].some((each) => each.pin && each.id !== id)
  if (isAnybody && !state.members.get(by)?.pin) {
    return refuse(`Somebody who has a PIN has to clear that of ${sayMember(state, id)}.`)
  }
  return record('pin-cleared', { member: id, why })
}
