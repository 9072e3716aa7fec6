// PINs as the books know them: what was proved, what was tried, how long to wait; a PIN itself never gets here.
import { count } from './count.ts'
import type { Command, Dated } from './commands.ts'
import { record, refuse, sayMember, type Decision } from './decide/decision.ts'
import type { Draft } from './events.ts'
import type { Id } from './gear.ts'
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

/** The fields of a command that bring a PIN: of whoever gives it, their old one, of whoever takes over, of the tour's officer. */
export const PIN_FIELDS = ['pin', 'old', 'readBackPin', 'officerPin'] as const
export type PinField = (typeof PIN_FIELDS)[number]

/** What the session found out about a command before it is decided. */
export interface Proof {
  /** Of each PIN that is asked for, as far as they were right. */
  pins: Readonly<Partial<Record<PinField, 'none' | 'right' | 'wrong'>>>
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

/** What asks for PINs, of those who have one. */
const ASKS_PIN = ['hand-over', 'adopt-policy', 'set-pin', 'clear-pin'] as const
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

/** As much of a command as says whose PINs it asks for. */
interface Asking {
  do: Command['do']
  by: Id
  to?: Id
  readBack?: true | undefined
}

/**
 * Whose PINs a command has to bring, and in which fields, in the order they are tried: of whoever gives it; of whoever
 * is said to have read the open items back; for a first PIN, of the tour's officer, or else anybody could make one up
 * for somebody else and act with it.
 */
export function pinsAsked(state: State, command: Asking): { field: PinField; member: Member }[] {
  const { by, to } = command
  const of = (field: PinField, id: Id | undefined) => {
    const member = state.members.get(id ?? '')
    return member?.pin ? [{ field, member }] : []
  }
  switch (command.do) {
    case 'hand-over':
      return [...(command.readBack && to !== by ? of('readBackPin', to) : []), ...of('pin', by)]
    case 'set-pin':
      return state.members.get(by)?.pin ? of('old', by) : of('officerPin', state.tour?.officer)
    case 'adopt-policy':
    case 'clear-pin':
      return of('pin', by)
    default:
      return []
  }
}

/** Nothing when the command may go on; a wrong PIN is refused and recorded. */
export function pinFault(command: Dated, state: State): Decision | undefined {
  const { proof } = command
  // Without a proof this is a look ahead, and nothing of it is recorded.
  if (!proof || !isAsking(command)) return undefined
  const failed = pinsAsked(state, command).find(({ field }) => proof.pins[field] !== 'right')
  if (!failed) return undefined
  const { field, member } = failed
  const waitS = pinWait(member, proof.now)
  const who = sayMember(state, member.id)
  if (waitS > 0) {
    return refuse(
      `The last PIN given for ${who} was wrong. Try again in ${count(waitS, 'second')}. Nothing was recorded.`,
    )
  }
  if (proof.pins[field] !== 'wrong') {
    return refuse(`${who} has a PIN, and this asks for it: give it in "${field}". Nothing was recorded.`)
  }
  const tried = (member.pinTries?.count ?? 0) + 1
  return {
    refused: `That is not the PIN of ${who}. The log says that it was tried; the next try is possible in ${waitAfter(tried)} s.`,
    draft: { type: 'pin-refused', data: { member: member.id, for: command.do, tries: tried } },
  }
}

/** Everybody who has a PIN, but for one. */
export const pinHolders = (state: State, but?: Id): Member[] =>
  [...state.members.values()].filter((each) => each.pin && each.id !== but)

const sayHolders = (state: State, holders: Member[]): string =>
  holders.map(({ id }) => sayMember(state, id)).join(', ')

/** Why somebody without a PIN may not close a tour whose officer has one: another name in "by" must not get round it. */
export function handOverFault(state: State, by: Id, officer: Id): string | undefined {
  if (!state.members.get(officer)?.pin || state.members.get(by)?.pin) return undefined
  const others = pinHolders(state, officer)
  const instead = others.length
    ? `In their place somebody else who has one can: ${sayHolders(state, others)}.`
    : `Nobody else has one. If they cannot come, "bayboard pin clear ${officer}" clears it, and the log shows that.`
  return `${sayMember(state, officer)} has a PIN, so they hand this tour over. ${instead}`
}

/** The same of a policy, once anybody has a PIN. */
export function adoptionFault(state: State, by: Id): string | undefined {
  const holders = pinHolders(state)
  if (!holders.length || state.members.get(by)?.pin) return undefined
  return `Somebody who has a PIN has to adopt a policy: ${sayHolders(state, holders)}.`
}

/** What a look ahead keeps: no PIN fits it. */
const NONE: KeptPin = { scheme: 'scrypt', n: 0, r: 0, p: 0, salt: '', hash: '' }

export const setPin = ({ by, proof }: Dated): Decision =>
  proof && !proof.made
    ? refuse('There is no PIN to keep. Nothing was recorded.')
    : record('pin-set', { member: by, pin: proof?.made ?? NONE })

/** What the event says of the PINs that were given for it. */
export function sayProof({ proof, ...command }: Dated, draft: Draft, state: State): Draft {
  if (!proof) return draft
  const isRight = (field: PinField): boolean => proof.pins[field] === 'right'
  const said = {
    ...((isRight('pin') || isRight('old')) && { byPin: true }),
    ...(isRight('readBackPin') && { readBackByPin: true }),
    ...(isRight('officerPin') && command.do === 'set-pin' && { witness: state.tour?.officer }),
  }
  return { ...draft, data: { ...draft.data, ...said } } as Draft
}

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
  if (pinHolders(state, id).length && !state.members.get(by)?.pin) {
    return refuse(`Somebody who has a PIN has to clear that of ${sayMember(state, id)}.`)
  }
  return record('pin-cleared', { member: id, why })
}
