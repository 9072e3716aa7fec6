// `bayboard` and `bayboard demo`: opens the board on a station; on first use it makes the demonstration, marked as invented.
import { mkdtempSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { readDemo } from '../demo.ts'
import { instantToMs } from '../domain/time.ts'
import { openSession } from '../session.ts'
import { makeStation, openStation, type NoStation } from '../store/station.ts'
import { whyOf } from '../store/trouble.ts'
import { deskOf } from './desk.ts'
import { status } from './status.ts'
import { complain, isNamed, print, stationFolder, type ExitStatus, type World } from './world.ts'

interface BoardOptions {
  station?: string
}

export async function board(world: World, options: BoardOptions): Promise<ExitStatus> {
  const folder = stationFolder(world, options.station)
  let keeper = await openStation(folder)
  if ('sentence' in keeper) {
    if (keeper.why !== 'none' || isNamed(world, options.station)) return complain(world, keeper.sentence, 3)
    const trouble = await makeDemonstration(world, folder)
    if (trouble) return complain(world, trouble.sentence, 3)
    keeper = await openStation(folder)
    if ('sentence' in keeper) return complain(world, keeper.sentence, 3)
  }
  const { glassAbilities } = await import('../tui/terminal/abilities.ts')
  const abilities = glassAbilities(world.env, world.stdout, world.stdin)
  if (!abilities.canBoard) {
    keeper.close()
    if (world.stdout.isTTY) world.stderr.write(`bayboard: ${abilities.why} The status follows instead.\n`)
    return status(world, { station: folder })
  }
  const session = openSession(keeper, world.clock)
  if (!session.state.station) {
    await session.close()
    return complain(world, session.stopped ?? `There is no readable station in ${folder}.`, 3)
  }
  const { runBoard } = await import('../tui/run-board.tsx')
  const stdout = world.stdout as NodeJS.WriteStream & { fd: number }
  await runBoard({ session, desk: deskOf(session, folder), stdin: world.stdin, stdout, abilities })
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
    print(world, place)
    return 0
  }
  return board(world, { station: place })
}

/** Plays the demonstration's commands through a session of its own, at the times they happened; or says why it cannot. */
async function makeDemonstration(world: World, folder: string): Promise<NoStation | undefined> {
  const path = new URL('demo/station.jsonl', world.data)
  let text: string
  try {
    text = readFileSync(path, 'utf8')
  } catch (error) {
    return inTrouble(
      `The demonstration cannot be read from ${path.pathname}: ${whyOf(error)}. Nothing was made.`,
    )
  }
  const { station, commands } = readDemo(text, world.clock(), world.zone)
  let nowMs = instantToMs(commands[0]!.at)!
  const made = await makeStation(folder, station, commands[0]!.at)
  if (made) return made
  const keeper = await openStation(folder)
  if ('sentence' in keeper) return keeper
  // The clock of the demonstration stands at each command's own time, so nothing in it was recorded late.
  const session = openSession(keeper, () => nowMs)
  try {
    for (const command of commands) {
      nowMs = instantToMs(command.at)!
      const answer = await session.submit(command)
      if (!('accepted' in answer)) {
        return inTrouble(`The demonstration could not be made: ${Object.values(answer)[0]}`)
      }
    }
  } finally {
    await session.close()
  }
  return undefined
}
