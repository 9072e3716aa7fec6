// Makes and checks PINs with scrypt before a command is decided; a PIN must never leave here but as what is kept of it.
import { randomBytes, scryptSync, timingSafeEqual } from 'node:crypto'
import type { Command, Dated } from '../domain/commands.ts'
import {
  isAsking,
  PIN_FIELDS,
  pinsAsked,
  pinWait,
  type KeptPin,
  type PinField,
  type Proof,
} from '../domain/pin.ts'
import type { State } from '../domain/state.ts'
import type { Instant } from '../domain/time.ts'

interface PinCost {
  n: number
  r: number
  p: number
}
/** About 32 MB and a tenth of a second a try. */
const COST: PinCost = { n: 2 ** 15, r: 8, p: 1 }
/** More than any version of this program has asked for: a journal from elsewhere must not fill the memory. */
const MOST: PinCost = { n: 2 ** 18, r: 16, p: 4 }
const BYTES = 32

const derive = (pin: string, salt: Buffer, { n, r, p }: PinCost): Buffer =>
  scryptSync(pin, salt, BYTES, { N: n, r, p, maxmem: 256 * n * r })

export function keepPin(pin: string, cost: PinCost = COST): KeptPin {
  const salt = randomBytes(16)
  const { n, r, p } = cost
  return {
    scheme: 'scrypt',
    n,
    r,
    p,
    salt: salt.toString('base64'),
    hash: derive(pin, salt, cost).toString('base64'),
  }
}

export function isPin(pin: string, kept: KeptPin): boolean {
  const hash = Buffer.from(kept.hash, 'base64')
  const isKnown = kept.scheme === 'scrypt' && kept.n <= MOST.n && kept.r <= MOST.r && kept.p <= MOST.p
  if (!isKnown || hash.length !== BYTES) return false
  try {
    return timingSafeEqual(derive(pin, Buffer.from(kept.salt, 'base64'), kept), hash)
  } catch {
    // A cost that scrypt does not take: no PIN fits what is kept.
    return false
  }
}

/** What `decide` may know of the PINs of a command: each is tried only once those before it were right, and none while there is a wait. */
export function proofOf(command: Command, state: State, now: Instant, cost?: PinCost): Proof | undefined {
  if (!isAsking(command)) return undefined
  const given: Readonly<Partial<Record<PinField, string | undefined>>> = command
  const pins: { -readonly [Field in PinField]?: Proof['pins'][Field] } = {}
  for (const { field, member } of pinsAsked(state, command)) {
    const pin = given[field]
    const isTried = pin !== undefined && pinWait(member, now) === 0
    pins[field] = isTried ? (isPin(pin, member.pin!) ? 'right' : 'wrong') : 'none'
    if (pins[field] !== 'right') break
  }
  return { pins, now, ...(command.do === 'set-pin' && { made: keepPin(command.pin, cost) }) }
}

/** What may go on to be decided. */
export function withoutPin(command: Command): Dated {
  if (!PIN_FIELDS.some((name) => name in command)) return command as Dated
  const kept = Object.entries(command).filter(([name]) => !(PIN_FIELDS as readonly string[]).includes(name))
  return Object.fromEntries(kept) as unknown as Dated
}
