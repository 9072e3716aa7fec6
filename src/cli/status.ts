// `bayboard status`: every seat, its state and reasons, once; it must never change the station.
import { assessNow, isReady } from '../domain/assess.ts'
import { arrange } from '../domain/board.ts'
import { apply } from '../domain/evolve.ts'
import { emptyState, type State } from '../domain/state.ts'
import { instantIn, instantToMs, type Instant } from '../domain/time.ts'
import { statusJson, statusText } from '../exports/status.ts'
import { readEvents } from '../store/station.ts'
import { withStation } from './opened.ts'
import { complain, hasUnicode, print, type ExitStatus, type World } from './world.ts'

interface StatusOptions {
  station?: string
  json?: boolean
  at?: string
}

export async function status(world: World, options: StatusOptions): Promise<ExitStatus> {
  const atMs = options.at === undefined ? undefined : instantToMs(options.at)
  if (options.at !== undefined && atMs === undefined) {
    return complain(
      world,
      `--at ${options.at} is not an instant with its offset. Write it as 2026-11-24T07:00:00-05:00.`,
      2,
    )
  }
  return withStation(world, options.station, (session, folder) => {
    const zone = session.state.station!.timeZone
    if (atMs === undefined) return show(world, options, session.state, session.now())
    const known = knownBy(folder, atMs)
    if (!known.station)
      return complain(world, `Nothing was recorded in this station before ${options.at}.`, 1)
    return show(world, options, known, instantIn(atMs, zone))
  })
}

function show(world: World, options: StatusOptions, state: State, at: Instant): ExitStatus {
  const assessment = assessNow(state, at)
  const board = arrange(assessment, state)
  print(world, options.json ? JSON.stringify(statusJson(board)) : statusText(board, hasUnicode(world)))
  return isReady(assessment) ? 0 : 1
}

/**
 * What was known at an instant: the journal as it stood until something later was recorded. The order of the journal
 * decides, so a care entered afterwards for an earlier day was not known then.
 */
export function knownBy(folder: string, atMs: number): State {
  const state = emptyState()
  let isPast = false
  readEvents(folder, (event) => {
    isPast ||= Date.parse(event.data.recordedAt ?? event.at) > atMs
    if (!isPast) apply(state, event)
  })
  return state
}
