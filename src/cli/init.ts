// `bayboard init`: makes an empty station; it must never touch a folder that already holds one.
import { rename } from 'node:fs/promises'
import { cleanText } from '../domain/clean.ts'
import { BASES, DEFAULT_BASE } from '../domain/policy/bases.ts'
import { ROTATION_NAMES } from '../domain/rotation.ts'
import { dateOf, instantIn, isTimeZone } from '../domain/time.ts'
import { makeStation, openStation } from '../store/station.ts'
import { whyOf } from '../store/trouble.ts'
import { complain, print, stationFolder, type ExitStatus, type World } from './world.ts'

interface InitOptions {
  station?: string
  name: string
  timeZone: string
  rotation: string
  starts: string
  policy?: string
  setDemonstrationAside?: boolean
}

function faultOf({
  name,
  timeZone,
  rotation,
  starts,
  policy = DEFAULT_BASE,
}: InitOptions): string | undefined {
  if (!cleanText(name)) return 'The station needs a name: --name "Station 6".'
  if (!isTimeZone(timeZone)) return `${timeZone} is not a time zone. Write it as America/New_York.`
  if (!ROTATION_NAMES.includes(rotation))
    return `There is no rotation ${rotation}. Choose one of: ${ROTATION_NAMES.join(', ')}.`
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(starts)) return `${starts} is not a time of day. Write it as 07:00.`
  if (!BASES.has(policy))
    return `There is no policy ${policy}. Choose one of: ${[...BASES.keys()].join(', ')}.`
  return undefined
}

export async function init(world: World, options: InitOptions): Promise<ExitStatus> {
  const fault = faultOf(options)
  if (fault) return complain(world, `${fault} Nothing was made.`, 2)
  const folder = stationFolder(world, options.station)
  if (options.setDemonstrationAside) {
    const trouble = await setAside(world, folder)
    if (trouble) return complain(world, trouble, 3)
  } else if (await isDemonstration(folder)) {
    const how = 'Add --set-demonstration-aside to move it away first, or name another folder with --station.'
    return complain(world, `${folder} holds the demonstration station. Nothing was changed. ${how}`, 1)
  }
  const { name, timeZone, rotation, starts, policy = DEFAULT_BASE } = options
  const facts = { format: 1 as const, name: cleanText(name), timeZone, rotation, starts, policy }
  const trouble = await makeStation(folder, facts, instantIn(world.clock(), timeZone))
  if (trouble) return complain(world, trouble.sentence, trouble.why === 'taken' ? 1 : 3)
  print(
    world,
    `Made ${facts.name} in ${cleanText(folder)}.\nNext: bayboard record for its rigs, bayboard import FILE for members and gear, then bayboard to open the board.`,
  )
  return 0
}

async function isDemonstration(folder: string): Promise<boolean> {
  const keeper = await openStation(folder)
  if ('sentence' in keeper) return false
  // Not by a session: that would keep a snapshot in somebody's station.
  let invented = keeper.kept?.station?.invented ?? false
  keeper.catchUp((event) => {
    if (event.type === 'station-made') invented = event.data.invented ?? false
  })
  keeper.close()
  return invented
}

/** Moves a demonstration to a name of its own beside the folder; nothing of it is lost. */
async function setAside(world: World, folder: string): Promise<string | undefined> {
  if (!(await isDemonstration(folder))) return undefined
  const aside = `${folder}-demonstration-${dateOf(instantIn(world.clock(), 'UTC'))}-${world.clock() % 100_000}`
  try {
    await rename(folder, aside)
  } catch (error) {
    return `${folder} cannot be moved to ${aside}: ${whyOf(error)}. Nothing was changed.`
  }
  print(world, `The demonstration station is now in ${cleanText(aside)}.`)
  return undefined
}
