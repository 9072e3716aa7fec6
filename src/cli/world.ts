// What a subcommand may touch of the world, and how it ends; it must never read the process itself.
import { userInfo } from 'node:os'
import { join, resolve } from 'node:path'
import { cleanText } from '../domain/clean.ts'

/** 0 done; 1 the answer is no; 2 wrong usage; 3 the data cannot be read or written. */
export type ExitStatus = 0 | 1 | 2 | 3

export interface World {
  stdin: NodeJS.ReadStream & { fd: number }
  stdout: NodeJS.WriteStream
  stderr: NodeJS.WriteStream
  env: Readonly<Record<string, string | undefined>>
  clock: () => number
  /** The zone a new demonstration takes: the machine's own. */
  zone: string
  /** The folder of the data shipped beside the program. */
  data: URL
}

/** `--station DIR`, else BAYBOARD_STATION, else the XDG data directory. */
export function stationFolder(world: World, option: string | undefined): string {
  const given = option ?? (world.env['BAYBOARD_STATION'] || undefined)
  if (given !== undefined) return resolve(given)
  // The XDG base directory specification has relative paths ignored.
  const data = world.env['XDG_DATA_HOME']
  // An empty HOME would put the station wherever the program happens to be started.
  const base = data?.startsWith('/') ? data : join(world.env['HOME'] || userInfo().homedir, '.local', 'share')
  return join(base, 'bayboard', 'station')
}

/** Was the folder named by the user, or is it the default one? */
export const isNamed = (world: World, option: string | undefined): boolean =>
  option !== undefined || Boolean(world.env['BAYBOARD_STATION'])

export const print = (world: World, text: string): void => {
  world.stdout.write(text.endsWith('\n') ? text : `${text}\n`)
}

/** One line that may quote a path or an argument: nothing quoted may drive the terminal. */
export const printLine = (world: World, sentence: string): void => print(world, cleanText(sentence))

/** An error for the user: what happened, what is safe, what to do next. */
export function complain(world: World, sentence: string, status: ExitStatus): ExitStatus {
  // It may quote an argument or a file, and nothing quoted may drive the terminal.
  world.stderr.write(`bayboard: ${cleanText(sentence)}\n`)
  return status
}
