// Opens the station for a subcommand, or says why it cannot; it must never make one.
import { openSession, type Session } from '../session.ts'
import { openStation } from '../store/station.ts'
import { complain, stationFolder, type ExitStatus, type World } from './world.ts'

/** Runs a subcommand on the open station and closes it, whatever happens. */
export async function withStation(
  world: World,
  folder: string | undefined,
  work: (session: Session, folder: string) => Promise<ExitStatus> | ExitStatus,
): Promise<ExitStatus> {
  const place = stationFolder(world, folder)
  const keeper = await openStation(place)
  if ('sentence' in keeper) return complain(world, keeper.sentence, 3)
  const session = openSession(keeper, world.clock)
  try {
    // Damage does not hide what is sound: it is said first and the rest is shown.
    if (session.stopped) complain(world, session.stopped, 3)
    if (!session.state.station)
      return complain(world, `There is no readable station in ${place}. Nothing was changed.`, 3)
    const status = await work(session, place)
    return session.stopped ? 3 : status
  } finally {
    await session.close()
  }
}
