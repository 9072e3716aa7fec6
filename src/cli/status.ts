// `bayboard status`: every seat, its state and reasons, once; it must never change the station.
import { assessNow, isReady } from '../domain/assess.ts'
import { arrange } from '../domain/board.ts'
import { SETUP } from '../domain/commands.ts'
import { apply } from '../domain/evolve.ts'
import { emptyState, type State } from '../domain/state.ts'
import { instantIn, instantToMs, type Instant } from '../domain/time.ts'
import { statusJson, statusText } from '../exports/status.ts'
import { readEvents } from '../store/station.ts'
import { hasUnicode } from '../tui/terminal/abilities.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World } from './world.ts'

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
  print(world, options.json ? JSON.stringify(statusJson(board)) : statusText(board, hasUnicode(world.env)))
  return isReady(assessment) ? 0 : 1
}

/**
 * What was known at an instant: the journal up to the last event recorded by then, since its order decides and no clock.
 * What was recorded late was not known before, except that a past entered afterwards, before anybody recorded anything
 * as it happened, is taken at its word.
 */
function knownBy(folder: string, atMs: number): State {
  let isLive = false
  let last = 0
  readEvents(folder, ({ seq, at, by, data }) => {
    isLive ||= by !== SETUP && data.recordedAt === undefined
    const known = isLive ? (data.recordedAt ?? at) : at
    if (Date.parse(known) <= atMs) last = seq
  })
  const state = emptyState()
  readEvents(folder, (event) => {
    if (event.seq <= last) apply(state, event)
  })
  return state
}
