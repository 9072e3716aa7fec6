// Asks for a PIN without showing it, or reads it from the standard input; it must never take one from the command line.
import { createInterface } from 'node:readline'
import { cleanText } from '../domain/clean.ts'
import type { Command, WithoutPin } from '../domain/commands.ts'
import { decide } from '../domain/decide.ts'
import { sayMember } from '../domain/decide/decision.ts'
import { pinsAsked, type PinField } from '../domain/pin.ts'
import type { State } from '../domain/state.ts'
import { instantIn } from '../domain/time.ts'
import type { World } from './world.ts'

const [BACKSPACE, DELETE] = ['\b', '\u007f']
const MOST_DIGITS = 12

/** The PIN, or undefined when none was given: Esc, Ctrl-C, the end of the input. */
type AskPin = (question: string) => Promise<string | undefined>

/** A terminal is asked; a pipe gives one PIN a line, in the order they are asked for. */
export function pinsOf(world: World): AskPin {
  if (world.stdin.isTTY) return (question) => ask(world, question)
  let lines: AsyncIterator<string> | undefined
  return async () => {
    // What is not asked for is not read.
    lines ??= createInterface({ input: world.stdin, crlfDelay: Infinity })[Symbol.asyncIterator]()
    const { value, done } = await lines.next()
    return done ? undefined : value.trim()
  }
}

/** Why a command would be refused whatever PIN is given: said before anybody has to give one. */
export function refusedAhead(world: World, state: State, command: WithoutPin<Command>): string | undefined {
  const at = instantIn(world.clock(), state.station?.timeZone ?? 'UTC')
  const decision = decide({ ...command, at }, state)
  return 'refused' in decision ? decision.refused : undefined
}

/** The PINs that a command asks for now, by their fields; none that was not given. */
export async function askPins(
  ask: AskPin,
  state: State,
  command: Parameters<typeof pinsAsked>[1],
): Promise<Partial<Record<PinField, string>>> {
  const given: Partial<Record<PinField, string>> = {}
  for (const { field, member } of pinsAsked(state, command)) {
    const pin = await ask(`The PIN of ${sayMember(state, member.id)}${field === 'old' ? ' now' : ''}:`)
    if (pin !== undefined) given[field] = pin
  }
  return given
}

function ask({ stdin, stderr }: World, question: string): Promise<string | undefined> {
  stderr.write(`${cleanText(question)} `)
  stdin.setRawMode(true)
  stdin.setEncoding('utf8')
  return new Promise((resolve) => {
    let pin = ''
    const end = (given: string | undefined): void => {
      stdin.off('data', take)
      stdin.setRawMode(false)
      stdin.pause()
      stderr.write('\n')
      resolve(given)
    }
    const take = (text: string): void => {
      for (const letter of text) {
        if (letter === '\r' || letter === '\n') return end(pin)
        if (letter === '\u001b' || letter === '\u0003' || letter === '\u0004') return end(undefined)
        if (letter === BACKSPACE || letter === DELETE) pin = pin.slice(0, -1)
        else if (/[0-9]/.test(letter) && pin.length < MOST_DIGITS) pin += letter
      }
    }
    stdin.on('data', take)
    stdin.resume()
  })
}
