// `bayboard export`: the readiness log of a tour as text, CSV, JSON or PDF; it must never leave out what the journal says of it.
import { lastTour } from '../domain/state.ts'
import { join } from 'node:path'
import { asCsv } from '../exports/csv.ts'
import { asJson } from '../exports/json.ts'
import { followTour } from '../exports/follow-tour.ts'
import { logOf, type LogAnswer, type ReadinessLog } from '../exports/readiness-log.ts'
import { asText } from '../exports/text.ts'
import type { Paper } from '../paper/press.ts'
import type { Session } from '../session.ts'
import { newestSeal } from '../store/seals/seal.ts'
import { hasUnicode } from '../tui/terminal/abilities.ts'
import { exportApart, LONG } from './export-apart.ts'
import { progressOf, type Progress } from './progress.ts'
import { withStation } from './opened.ts'
import { readJournal } from './read-journal.ts'
import { NOT_IN_A_TERMINAL, onPaper, paperNamed, sayNoPaper, type Written } from './on-paper.ts'
import { complain, type ExitStatus, type World } from './world.ts'
import { putOut, writeWhole, type OutOptions } from './write-file.ts'

export const FORMATS = ['text', 'csv', 'json', 'pdf'] as const
export type Format = (typeof FORMATS)[number]
const ENDINGS: Record<Format, string> = { text: 'txt', csv: 'csv', json: 'json', pdf: 'pdf' }

interface ExportOptions extends OutOptions {
  station?: string
  tour: string
  format: string
  paper?: string
}

export const exportLog = (world: World, options: ExportOptions): Promise<ExitStatus> => {
  const format = FORMATS.find((each) => each === options.format)
  if (!format) {
    const known = FORMATS.join(', ')
    const calendar =
      options.format === 'ics' ? ' A calendar of what comes due: bayboard forecast --format ics.' : ''
    const sentence = `The readiness log is not made as ${options.format}. Choose one of: ${known}.${calendar}`
    return Promise.resolve(complain(world, sentence, 2))
  }
  if (format === 'pdf' && options.out === undefined && world.stdout.isTTY) {
    return Promise.resolve(complain(world, NOT_IN_A_TERMINAL, 2))
  }
  return withStation(world, options.station, async (session, folder) => {
    const paper = paperNamed(options.paper, session.state)
    if (!paper) return complain(world, sayNoPaper(options.paper), 2)
    const progress = progressOf(world, 'Reading the journal', session.head.seq)
    const made = makeLog(session, folder, options.tour, progress)
    if ('refused' in made) return complain(world, made.refused, 1)
    return putOut(world, await write(made.log, format, hasUnicode(world.env), world.data, paper), options)
  })
}

/** The log of one tour, read from the journal event by event so that memory does not grow with the years. */
function makeLog(session: Session, folder: string, tour: string, progress?: Progress): LogAnswer {
  const tourId = tour === 'last' ? (lastTour(session.state) ?? tour) : tour
  const walk = followTour(tourId)
  const stopped = readJournal(folder, walk.see, progress)
  // A paper that leaves out what follows the damage would be taken for the whole tour.
  if (stopped !== undefined) return { refused: `No log was made, because it would not be whole. ${stopped}` }
  const seal = newestSeal(folder, tourId)?.text
  return logOf(walk.end(), { tourId, at: session.now(), headHash: session.head.hash, seal })
}

function write(
  log: ReadinessLog,
  format: Format,
  unicode: boolean,
  data: URL,
  paper: Paper,
): Written | Promise<Written> {
  if (format === 'pdf') return onPaper({ print: 'readiness-log', log }, paper, data)
  if (format === 'json') return asJson(log)
  return format === 'csv' ? asCsv(log) : asText(log, { unicode })
}

/** Writes the log into the station's own folder of exports; gives the path, or the sentence that says why not. */
export async function exportToStation(
  session: Session,
  folder: string,
  tour: string,
  format: Format,
  data: URL,
): Promise<{ path: string } | { refused: string }> {
  const stamp = session.now().slice(0, 19).replaceAll(/[-:]/g, '')
  const path = join(folder, 'exports', `${fileNameOf(tour)}-${stamp}.${ENDINGS[format]}`)
  if (session.head.seq > LONG) {
    const apart = await exportApart({ folder, tour, format, path })
    if (apart) return apart
  }
  const made = makeLog(session, folder, tour)
  if ('refused' in made) return made
  const paper = paperNamed(undefined, session.state)!
  const trouble = writeWhole(path, await write(made.log, format, true, data, paper), true)
  return trouble ? { refused: trouble } : { path }
}

/** A journal from elsewhere may hold any text for an id: it never leads out of the folder. */
const fileNameOf = (id: string): string => id.replaceAll(/[^A-Za-z0-9_.-]|^\.+/g, '_')
