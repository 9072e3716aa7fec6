// `bayboard pin`: sets or clears a member's PIN; it must never print one, nor take one as an argument.
import { cleanText } from '../domain/clean.ts'
import { parseCommand } from '../domain/commands.ts'
import { sayMember } from '../domain/decide/decision.ts'
import type { Session } from '../session.ts'
import { askPins, pinsOf } from './ask-pin.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World } from './world.ts'

interface PinOptions {
  station?: string
  by: string
  why?: string
}

export const setPin = (world: World, options: PinOptions): Promise<ExitStatus> =>
  withStation(world, options.station, async (session) => {
    const { by } = options
    const ask = pinsOf(world)
    const who = sayMember(session.state, by)
    const given = await askPins(ask, session.state, { do: 'set-pin', by })
    const pin = await ask(`A new PIN for ${who}, 4 to 12 digits:`)
    const again = world.stdin.isTTY ? await ask('The new PIN again:') : pin
    if (pin === undefined || again !== pin) {
      return complain(world, 'The new PIN was not given twice the same. Nothing was changed.', 1)
    }
    return submit(world, session, { do: 'set-pin', by, pin, ...given })
  })

export const clearPin = (world: World, member: string, options: PinOptions): Promise<ExitStatus> =>
  withStation(world, options.station, async (session) => {
    const { by, why } = options
    const given = await askPins(pinsOf(world), session.state, { do: 'clear-pin', by })
    return submit(world, session, { do: 'clear-pin', by, member, why, ...given })
  })

async function submit(world: World, session: Session, input: object): Promise<ExitStatus> {
  const parsed = parseCommand(input)
  if ('refused' in parsed) return complain(world, parsed.refused, 2)
  const answer = await session.submit(parsed.command)
  if ('refused' in answer) return complain(world, answer.refused, 1)
  if ('failed' in answer) return complain(world, answer.failed, 3)
  print(world, `Done, as event ${answer.accepted[0]}: ${cleanText(parsed.command.do.replace('-', ' '))}.`)
  return 0
}
