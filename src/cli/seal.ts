// `bayboard seal`: makes the seals that hand-overs are still without; it must never replace one.
import { cleanText } from '../domain/clean.ts'
import type { Session } from '../session.ts'
import { realFiles } from '../store/files.ts'
import { makeSeal, newestSeal } from '../store/seals/seal.ts'
import { readEvents } from '../store/station.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World, printLine } from './world.ts'

interface SealOptions {
  station?: string
}

export const seal = (world: World, options: SealOptions): Promise<ExitStatus> =>
  withStation(world, options.station, async (session, folder) => {
    const handOvers: { tour: string; count: number; head: string }[] = []
    const read = readEvents(folder, ({ type, data, seq, hash }) => {
      if (type === 'tour-handed-over') handOvers.push({ tour: data.tour, count: seq, head: hash })
    })
    const stopped = 'sentence' in read ? read.sentence : read.stopped
    if (stopped !== undefined) return complain(world, `Nothing was sealed. ${stopped}`, 3)
    const last = handOvers.at(-1)
    if (last === undefined) {
      return complain(world, 'No tour has been handed over yet, so there is nothing to seal.', 1)
    }
    const missing = handOvers.filter(({ tour }) => newestSeal(folder, tour) === undefined)
    const key = missing.length ? await keyOf(session) : ''
    if (typeof key !== 'string') return complain(world, key.failed, 3)
    for (const each of missing) {
      const sealed = makeSeal(realFiles, folder, key, { ...each, at: session.now() })
      if ('failed' in sealed) return complain(world, sealed.failed, 3)
      printLine(world, `Sealed tour ${cleanText(each.tour)}: ${sealed.path}`)
    }
    if (!missing.length) print(world, `Every hand-over has its seal: ${handOvers.length}.`)
    print(world, `The newest, to be kept elsewhere:\n\n${newestSeal(folder, last.tour)?.text ?? ''}`)
    return 0
  })

/** The key in force; a journal from before there were seals gets its first one. */
async function keyOf(session: Session): Promise<string | { failed: string }> {
  if (session.state.sealKey === null) {
    const by = session.state.tour?.officer ?? [...session.state.members.keys()].at(-1) ?? 'setup'
    const made = await session.makeKey(by, 'the first seal')
    if (!('accepted' in made)) return { failed: Object.values(made).join() }
  }
  return session.state.sealKey ?? { failed: 'No key was made.' }
}
