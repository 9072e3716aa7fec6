// `bayboard import`: members or elements from a CSV file, all or nothing; every bad row is named by line and column.
import { readFileSync } from 'node:fs'
import { basename } from 'node:path'
import { cleanText } from '../domain/clean.ts'
import { SETUP } from '../domain/commands.ts'
import { rowFaults } from '../domain/decide/import-gear.ts'
import { dateOf } from '../domain/time.ts'
import type { Session } from '../session.ts'
import { COLUMN_NAMES, UNUSED, type ColumnName } from '../store/imports/columns.ts'
import { sayFaults, type Fault } from '../store/imports/fault.ts'
import { readGear, type GearRead } from '../store/imports/read-gear.ts'
import { whyOf } from '../store/trouble.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World } from './world.ts'

interface ImportOptions {
  station?: string
  dryRun?: boolean
  map?: string[]
}

/** A screenful of faults; the rest are counted. */
const MOST_FAULTS = 200

export const importFile = async (world: World, path: string, options: ImportOptions): Promise<ExitStatus> => {
  const map = mapOf(options.map ?? [])
  if (typeof map === 'string') return complain(world, map, 2)
  let bytes: Uint8Array
  try {
    bytes = readFileSync(path)
  } catch (error) {
    return complain(world, `${path} cannot be read: ${whyOf(error)}. Nothing was imported.`, 3)
  }
  return withStation(world, options.station, async (session) => {
    const file = cleanText(basename(path)) || 'the file'
    const read = readGear(bytes, { file, map })
    const faults = 'faults' in read ? read.faults : faultsHere(read, session)
    if ('faults' in read || faults.length) return refuseFile(world, path, faults)
    for (const note of read.notes) world.stderr.write(`Note: ${note}\n`)
    const { members, elements } = read
    const issued = elements.filter((each) => each.issuedTo !== undefined).length
    const count = `${members.length} members and ${elements.length} elements, ${issued} of them issued`
    if (options.dryRun) {
      print(world, `${path} would bring ${count}. Nothing was imported.`)
      return 0
    }
    const answer = await session.submit({ do: 'import-gear', by: SETUP, file, members, elements })
    if ('refused' in answer) return complain(world, answer.refused, 1)
    if ('failed' in answer) return complain(world, answer.failed, 3)
    print(world, `Imported ${count}, as event ${answer.accepted[0]}.`)
    return 0
  })
}

/** `Their heading=our-column`; the sentence when it cannot be read. */
function mapOf(given: readonly string[]): Record<string, string> | string {
  const map: [string, string][] = []
  for (const each of given) {
    const at = each.lastIndexOf('=')
    if (at < 1) {
      return `--map ${each} is not HEADING=COLUMN. The columns are: ${[...COLUMN_NAMES, UNUSED].join(', ')}.`
    }
    const heading = each.slice(0, at)
    if (map.some(([name]) => name === heading)) return `--map names the heading ${heading} twice.`
    map.push([heading, each.slice(at + 1)])
  }
  return Object.fromEntries(map)
}

/** What the station itself has against the rows: ids that are taken, holders it does not know. */
function faultsHere(read: Exclude<GearRead, { faults: Fault[] }>, session: Session): Fault[] {
  return rowFaults(read, session.state, dateOf(session.now())).map(({ id, column, says }) => ({
    line: read.lineOf.get(id) ?? 1,
    column: read.headings.get(column as ColumnName) ?? null,
    says,
  }))
}

function refuseFile(world: World, path: string, faults: readonly Fault[]): ExitStatus {
  for (const sentence of sayFaults(faults, MOST_FAULTS)) world.stderr.write(`${sentence}\n`)
  const count = faults.length === 1 ? 'one fault' : `${faults.length} faults`
  return complain(world, `${path} has ${count}. Nothing was imported. Put them right and import it again.`, 1)
}
