// `bayboard pin`: sets or clears a member's PIN; it must never print one, nor take one as an argument.
import { parseCommand } from '../domain/commands.ts'
import { sayMember } from '../domain/decide/decision.ts'
import type { Session } from '../session.ts'
import { askPins, pinsOf, refusedAhead } from './ask-pin.ts'
import { withStation } from './opened.ts'
import { complain, printLine, type ExitStatus, type World } from './world.ts'

interface PinOptions {
  station?: string
  by: string
  why?: string
}

export const setPin = (world: World, options: PinOptions): Promise<ExitStatus> =>
  withStation(world, options.station, async (session) => {
    const { by } = options
    const { state } = session
    const refused = refusedAhead(world, state, { do: 'set-pin', by })
    if (refused !== undefined) return complain(world, refused, 1)
    const ask = pinsOf(world)
    const who = sayMember(state, by)
    const given = await askPins(ask, state, { do: 'set-pin', by })
    const pin = await ask(`A new PIN for ${who}, 4 to 12 digits:`)
    const again = world.stdin.isTTY ? await ask('The new PIN again:') : pin
    if (pin === undefined || again !== pin) {
      return complain(world, 'The new PIN was not given twice the same. Nothing was changed.', 1)
    }
    return submit(world, session, { do: 'set-pin', by, pin, ...given }, `The PIN of ${who} is set`)
  })

export const clearPin = (world: World, member: string, options: PinOptions): Promise<ExitStatus> =>
  withStation(world, options.station, async (session) => {
    const { state } = session
    const parsed = parseCommand({ do: 'clear-pin', by: options.by, member, why: options.why })
    if ('refused' in parsed) return complain(world, parsed.refused, 2)
    const refused = refusedAhead(world, state, parsed.command)
    if (refused !== undefined) return complain(world, refused, 1)
    const given = await askPins(pinsOf(world), state, parsed.command)
    const done = `The PIN of ${sayMember(state, member)} is cleared`
    return submit(world, session, { ...parsed.command, ...given }, done)
  })

async function submit(world: World, session: Session, input: object, done: string): Promise<ExitStatus> {
  const parsed = parseCommand(input)
  if ('refused' in parsed) return complain(world, parsed.refused, 2)
  const answer = await session.submit(parsed.command)
  if ('refused' in answer) return complain(world, answer.refused, 1)
  if ('failed' in answer) return complain(world, answer.failed, 3)
  printLine(world, `${done}, as event ${answer.accepted[0]}.`)
  return 0
}
