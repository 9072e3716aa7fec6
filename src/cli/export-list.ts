// `bayboard export --list`: gear, members, cares or fit tests as CSV that `import` reads again; it must never change the station.
import { listCsv, LISTS } from '../exports/gear-list.ts'
import { withStation } from './opened.ts'
import { complain, type ExitStatus, type World } from './world.ts'
import { putOut, type OutOptions } from './write-file.ts'

interface ListOptions extends OutOptions {
  station?: string
  list: string
  format?: string
}

export async function exportList(world: World, options: ListOptions): Promise<ExitStatus> {
  const list = LISTS.find((each) => each === options.list)
  if (!list)
    return complain(world, `There is no list ${options.list}. Choose one of: ${LISTS.join(', ')}.`, 2)
  if (options.format !== undefined && options.format !== 'csv') {
    return complain(
      world,
      `A list is made as csv, not as ${options.format}: it is what import reads again.`,
      2,
    )
  }
  return withStation(world, options.station, ({ state }) => putOut(world, listCsv(state, list), options))
}
