// `bayboard import`: members, gear, cares or fit tests from CSV or a workbook, all or nothing; every bad row is named by line and column.
import { count } from '../domain/count.ts'
import { readFileSync } from 'node:fs'
import { basename } from 'node:path'
import { cleanText } from '../domain/clean.ts'
import { SETUP, type Command } from '../domain/commands.ts'
import { differenceOf, isAddition, type Difference } from '../domain/import-diff.ts'
import type { State } from '../domain/state.ts'
import { sayChange } from '../domain/tell-import.ts'
import { dateOf, type LocalDate } from '../domain/time.ts'
import type { Session } from '../session.ts'
import { COLUMN_NAMES, UNUSED } from '../store/imports/columns.ts'
import { isWorkbook } from '../store/imports/plain-bytes.ts'
import { readGear, type FileRead, type ReadOptions } from '../store/imports/read-gear.ts'
import { FILE_SORTS } from '../store/imports/record-columns.ts'
import { whyOf } from '../store/trouble.ts'
import { ask, askName, canAsk } from './ask.ts'
import { guideMap } from './guide-import.ts'
import { faultsHere, faultsOfOthers, MOST_SHOWN, refuseFile } from './import-faults.ts'
import { sayLaterIssues, sayUndated } from './import-notes.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World, printLine } from './world.ts'

interface ImportOptions {
  station?: string
  dryRun?: boolean
  update?: boolean
  map?: string[]
  as?: string
  sheet?: string
  by?: string
}

/** A file of this length takes about a second to read. */
const LONG_BYTES = 1_000_000

export const importFile = async (world: World, path: string, options: ImportOptions): Promise<ExitStatus> => {
  const map = mapOf(options.map ?? [])
  if (typeof map === 'string') return complain(world, map, 2)
  const as = FILE_SORTS.find((each) => each === options.as)
  if (options.as !== undefined && !as) {
    return complain(world, `--as ${options.as} is none of: ${FILE_SORTS.join(', ')}.`, 2)
  }
  let bytes: Buffer
  try {
    bytes = readFileSync(path)
  } catch (error) {
    return complain(world, `${path} cannot be read: ${whyOf(error)}. Nothing was imported.`, 3)
  }
  return withStation(world, options.station, async (session) => {
    const file = cleanText(basename(path)) || 'the file'
    if (world.stderr.isTTY && bytes.length > LONG_BYTES) world.stderr.write(`Reading ${file}.\n`)
    const read = await readAs(world, bytes, options.sheet, { file, map, ...(as && { as }) })
    if ('faults' in read) {
      if (read.isWrongMap) {
        const words = read.faults.map(({ says }) => says).join(' ')
        return complain(world, `--map: ${words} Nothing was imported.`, 2)
      }
      const others = read.others ? faultsOfOthers(read.others, session) : []
      return refuseFile(world, path, [...read.faults, ...others])
    }
    const found = differenceOf(read, session.state)
    const faults = faultsHere(read, found, session)
    if (faults.length) return refuseFile(world, path, faults)
    for (const note of [...read.notes, ...sayLaterIssues(found, read)]) world.stderr.write(`Note: ${note}\n`)
    return take(world, path, file, found, session, options)
  })
}

/** On a terminal somebody is asked which heading is which, where the headings do not say. */
async function readAs(
  world: World,
  bytes: Buffer,
  sheet: string | undefined,
  options: ReadOptions,
): Promise<FileRead> {
  let input: Parameters<typeof readGear>[0] = bytes
  if (isWorkbook(bytes)) {
    const { readWorkbook } = await import('../store/imports/workbook.ts')
    const opened = await readWorkbook(bytes, sheet)
    if ('faults' in opened) return opened
    input = opened.sheet
  }
  const read = readGear(input, options)
  if (!('faults' in read) || !read.unmatched || read.isWrongMap || !canAsk(world)) return read
  const map = await guideMap(world, read.unmatched, options)
  return map ? readGear(input, { ...options, ...map }) : read
}

async function take(
  world: World,
  path: string,
  file: string,
  found: Difference,
  session: Session,
  options: ImportOptions,
): Promise<ExitStatus> {
  const { changes, known } = found
  const brings = sayCount(found)
  const also = known ? ` ${count(known, 'row is', 'rows are')} on the books already.` : ''
  if (brings === '') {
    printLine(world, `Nothing in ${path} is new.${also} Nothing was imported.`)
    return 0
  }
  for (const change of changes.slice(0, MOST_SHOWN)) print(world, `Changes ${sayChange(change)}`)
  if (changes.length > MOST_SHOWN)
    print(world, `${count(changes.length - MOST_SHOWN, 'more change is', 'more changes are')} not shown.`)
  if (options.dryRun) {
    printLine(world, `${path} would bring ${brings}.${also} Nothing was imported.`)
    return 0
  }
  if (changes.length && !options.update && !(await agrees(world, changes.length))) {
    const sentence = `${path} changes what is on the books, as shown. Nothing was imported. To take it, add --update.`
    return complain(world, sentence, 1)
  }
  const by = options.by ?? (needsName(found, session.state) ? await askName(world) : SETUP)
  if (by === undefined) {
    const sentence = `${path} changes the books, or says what was done since this station was made. Say who answers for it with --by MEMBER. Nothing was imported.`
    return complain(world, sentence, 2)
  }
  const answer = await session.submit(commandOf(found, file, by))
  if ('refused' in answer) return complain(world, answer.refused, 1)
  if ('failed' in answer) return complain(world, answer.failed, 3)
  print(world, `Imported ${brings}, as event ${answer.accepted[0]}.${also}`)
  for (const undated of sayUndated(found.elements, session)) print(world, undated)
  return 0
}

function commandOf({ known: _, laterIssues: __, ...found }: Difference, file: string, by: string): Command {
  const { members, elements } = found
  return isAddition(found)
    ? { do: 'import-gear', by, file, members, elements }
    : { do: 'import-records', by, file, ...found }
}

function sayCount({ members, elements, cares, fitTests, changes }: Difference): string {
  const issued = elements.filter((each) => each.issuedTo !== undefined).length
  const hasGear = members.length + elements.length > 0
  return [
    ...(hasGear
      ? [
          `${count(members.length, 'member')} and ${count(elements.length, 'element')}, ${issued} of them issued`,
        ]
      : []),
    ...(cares.length ? [count(cares.length, 'care')] : []),
    ...(fitTests.length ? [count(fitTests.length, 'fit test')] : []),
    ...(changes.length ? [count(changes.length, 'change')] : []),
  ].join('; ')
}

const agrees = async (world: World, changes: number): Promise<boolean> =>
  canAsk(world) &&
  (await ask(world, `Take ${changes === 1 ? 'this change' : `these ${changes} changes`}? Write yes: `)) ===
    'yes'

/** Whoever sets a station up brings along what was before it; what changes the books is somebody's doing. */
function needsName({ changes, cares, fitTests }: Difference, { station, members }: State): boolean {
  const made = dateOf(station!.madeAt)
  const isLater = ({ on }: { on: LocalDate }): boolean => on >= made
  return members.size > 0 && (changes.length > 0 || [...cares, ...fitTests].some(isLater))
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
