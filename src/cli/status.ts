// `bayboard status`: every seat, its state and reasons, once; it must never change the station.
import { readFileSync } from 'node:fs'
import { assessNow, isReady, type Assessment } from '../domain/assess.ts'
import { arrange, type Board } from '../domain/board.ts'
import { SETUP } from '../domain/commands.ts'
import { apply } from '../domain/evolve.ts'
import { emptyState, type State } from '../domain/state.ts'
import { instantIn, type Instant } from '../domain/time.ts'
import { isJudgedTrue, judgedAgain, readinessLogShape, type ReadinessLog } from '../exports/readiness-log.ts'
import { sayTorn, statusJson, statusText, type Wholeness } from '../exports/status.ts'
import type { Session } from '../session.ts'
import { readEvents } from '../store/station.ts'
import { whyOf } from '../store/trouble.ts'
import { hasUnicode } from '../tui/terminal/abilities.ts'
import { readAt } from './at-instant.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World } from './world.ts'

interface StatusOptions {
  station?: string
  json?: boolean
  at?: string
  log?: string
}

export async function status(world: World, options: StatusOptions): Promise<ExitStatus> {
  if (options.log !== undefined) return statusOfLog(world, options.log, options)
  return withStation(world, options.station, (session, folder) => {
    const zone = session.state.station!.timeZone
    if (options.at === undefined) return judge(world, options, session, session.state, session.now())
    const at = readAt(options.at, zone)
    if ('wrong' in at) return complain(world, at.wrong, 2)
    if (at.note) world.stderr.write(`Note: ${at.note}\n`)
    const known = knownBy(folder, at.ms)
    if (!known.station)
      return complain(world, `Nothing was recorded in this station before ${options.at}.`, 1)
    return judge(world, options, session, known, instantIn(at.ms, zone))
  })
}

/** The board of an exported log, judged again from the log's own evidence: no station is needed for it. */
function statusOfLog(world: World, path: string, options: StatusOptions): ExitStatus {
  let text: string
  try {
    text = readFileSync(path, 'utf8')
  } catch (error) {
    return complain(world, `${path} cannot be read: ${whyOf(error)}.`, 3)
  }
  const log = readLog(text)
  if (!log) return complain(world, `${path} is not a readiness log as "export --format json" makes it.`, 3)
  const { assessment, board } = judgedAgain(log)
  show(world, options, assessment, board)
  if (isJudgedTrue(log)) return isReady(assessment) ? 0 : 1
  const sentence = `The verdicts that ${path} tells do not follow from its own evidence; what is shown does. It was changed, or judged by other rules than this program has.`
  return complain(world, sentence, 1)
}

function readLog(text: string): ReadinessLog | undefined {
  try {
    return readinessLogShape.safeParse(JSON.parse(text)).data
  } catch {
    return undefined
  }
}

function show(
  world: World,
  options: StatusOptions,
  assessment: Assessment,
  board: Board,
  whole?: Wholeness,
): ExitStatus {
  const unicode = hasUnicode(world.env)
  print(world, options.json ? JSON.stringify(statusJson(board, whole)) : statusText(board, unicode, whole))
  return isReady(assessment) ? 0 : 1
}

function judge(
  world: World,
  options: StatusOptions,
  { stopped, torn }: Session,
  state: State,
  at: Instant,
): ExitStatus {
  const assessment = assessNow(state, at)
  const whole = { stopped: stopped ?? null, torn: torn === undefined ? null : sayTorn(torn) }
  return show(world, options, assessment, arrange(assessment, state), whole)
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
