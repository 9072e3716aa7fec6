// `bayboard` and `bayboard demo`: opens the board on a station; on first use it makes the demonstration, marked as invented.
import { randomUUID } from 'node:crypto'
import { existsSync, linkSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import type { Demo } from '../demo.ts'
import { instantToMs } from '../domain/time.ts'
import { openSession } from '../session.ts'
import { makeFolderToStay, realFiles } from '../store/files.ts'
import { heedJournal } from '../store/heed.ts'
import { JOURNAL_NAME } from '../store/journal.ts'
import { KEYS } from '../store/seals/keys.ts'
import { SEALS } from '../store/seals/seal.ts'
import { makeStation, openStation, type NoStation } from '../store/station.ts'
import { codeOf, whyOf } from '../store/trouble.ts'
import { runBoard } from '../tui/run-board.ts'
import { glassAbilities } from '../tui/terminal/abilities.ts'
import { deskOf } from './desk.ts'
import { complain, isNamed, printLine, stationFolder, type ExitStatus, type World } from './world.ts'

interface BoardOptions {
  station?: string
  /** Lines of text instead of a screen. */
  text?: boolean
}

const TEXT_OFFER = ' For the board in lines of text, start it with: bayboard --text'

export async function board(world: World, options: BoardOptions): Promise<ExitStatus> {
  const scanPrefix = world.env['BAYBOARD_SCAN_PREFIX'] ?? ''
  if (!/^[!-~]{0,8}$/.test(scanPrefix)) {
    const asked = 'up to 8 letters, digits or signs that the scanner puts before a code'
    return complain(world, `BAYBOARD_SCAN_PREFIX must be ${asked}. Nothing was opened.`, 2)
  }
  const folder = stationFolder(world, options.station)
  let keeper = await openStation(folder)
  if ('sentence' in keeper) {
    if (keeper.why !== 'none' || isNamed(world, options.station)) return complain(world, keeper.sentence, 3)
    const trouble = await makeDemonstration(world, folder)
    if (trouble) return complain(world, trouble.sentence, 3)
    keeper = await openStation(folder)
    if ('sentence' in keeper) return complain(world, keeper.sentence, 3)
  }
  const abilities = glassAbilities(world.env, world.stdout, world.stdin)
  const isTerminal = Boolean(world.stdin.isTTY && world.stdout.isTTY)
  // Asked for by name it works through a pipe as well; a setting left in the environment must not catch a script.
  const isText = options.text || Boolean(world.env['BAYBOARD_TEXT'] && isTerminal)
  if (!abilities.canBoard && !isText) {
    keeper.close()
    if (world.stdout.isTTY)
      world.stderr.write(
        `bayboard: ${abilities.why} The status follows instead.${isTerminal ? TEXT_OFFER : ''}\n`,
      )
    return (await import('./status.ts')).status(world, { station: folder })
  }
  const session = openSession(keeper, world.clock)
  if (!session.state.station) {
    await session.close()
    return complain(world, session.stopped ?? `There is no readable station in ${folder}.`, 3)
  }
  if (isText) {
    const { runText } = await import('../tui/text-mode/run-text.ts')
    await runText({
      session,
      desk: deskOf(session, folder, world.data),
      stdin: world.stdin,
      stdout: world.stdout,
      scanPrefix,
    })
    return session.stopped ? 3 : 0
  }
  const stdout = world.stdout as NodeJS.WriteStream & { fd: number }
  await runBoard({
    session,
    desk: deskOf(session, folder, world.data),
    heed: (changed) => heedJournal(folder, changed),
    stdin: world.stdin,
    stdout,
    abilities,
    scanPrefix,
  })
  return 0
}

const inTrouble = (sentence: string): NoStation => ({ why: 'trouble', sentence })

interface DemoOptions {
  open: boolean
}

export async function demo(
  world: World,
  folder: string | undefined,
  options: DemoOptions,
): Promise<ExitStatus> {
  const place =
    folder === undefined ? mkdtempSync(join(tmpdir(), 'bayboard-demonstration-')) : resolve(folder)
  const trouble = await makeDemonstration(world, place)
  if (trouble) return complain(world, trouble.sentence, trouble.why === 'taken' ? 1 : 3)
  if (!options.open || !world.stdout.isTTY || !world.stdin.isTTY) {
    printLine(world, place)
    return 0
  }
  return board(world, { station: place })
}

/** Makes the demonstration beside its place and puts it there whole, so that a start cut short leaves none behind. */
async function makeDemonstration(world: World, folder: string): Promise<NoStation | undefined> {
  const path = new URL('demo/station.jsonl', world.data)
  const making = `${folder}.making-${randomUUID()}`
  let text: string
  try {
    text = readFileSync(path, 'utf8')
  } catch (error) {
    return inTrouble(
      `The demonstration cannot be read from ${path.pathname}: ${whyOf(error)}. Nothing was made.`,
    )
  }
  if (world.stderr.isTTY)
    world.stderr.write('Making the demonstration station; everything in it is invented.\n')
  try {
    const { readDemo } = await import('../demo.ts')
    const trouble = await playDemonstration(readDemo(text, world.clock(), world.zone), making)
    // It is made beside its place, under a name that nobody has given.
    if (trouble) return { ...trouble, sentence: trouble.sentence.replaceAll(making, folder) }
    makeFolderToStay(realFiles, folder)
    const journal = realFiles.open(join(making, JOURNAL_NAME), 'append')
    realFiles.fdatasync(journal)
    realFiles.close(journal)
    if (!existsSync(join(folder, JOURNAL_NAME))) bringAlong(making, folder)
    linkSync(join(making, JOURNAL_NAME), join(folder, JOURNAL_NAME))
    realFiles.syncFolder(folder)
    return undefined
  } catch (error) {
    return codeOf(error) === 'EEXIST' && existsSync(join(folder, JOURNAL_NAME))
      ? {
          why: 'taken',
          sentence: `There is already a station in ${folder}. Nothing was changed. Name another folder.`,
        }
      : inTrouble(`The demonstration cannot be made in ${folder}: ${whyOf(error)}. Name another folder.`)
  } finally {
    // Where nothing could be made there is nothing to remove.
    if (existsSync(making)) rmSync(making, { recursive: true, force: true })
  }
}

/** The keys and seals that the journal speaks of are there before it is. */
function bringAlong(making: string, folder: string): void {
  for (const name of [KEYS, SEALS]) {
    const [from, to] = [join(making, name), join(folder, name)]
    if (!existsSync(from)) continue
    makeFolderToStay(realFiles, to)
    for (const file of readdirSync(from)) renameSync(join(from, file), join(to, file))
    realFiles.syncFolder(to)
  }
}

/** Plays its commands through a session of its own, as the station's own officers would have given them. */
async function playDemonstration(
  { station, madeAt, commands }: Demo,
  folder: string,
): Promise<NoStation | undefined> {
  const made = await makeStation(folder, station, madeAt)
  if (made) return made
  // Nobody has been told yet that any of it is safe, so it is synced once, as it is put in its place.
  const keeper = await openStation(folder, { ...realFiles, fdatasync: () => undefined })
  if ('sentence' in keeper) return keeper
  // The clock stands at each command's own time, so nothing in it was recorded late.
  const session = openSession(keeper, (command) => instantToMs(command?.at ?? madeAt)!)
  try {
    const answers = await Promise.all(commands.map((command) => session.submit(command)))
    const refused = answers.find((answer) => !('accepted' in answer))
    return refused && inTrouble(`The demonstration could not be made: ${Object.values(refused)[0]}`)
  } finally {
    await session.close()
  }
}
