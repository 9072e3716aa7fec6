// `bayboard key`: shows the public key that seals are checked with, or makes a new one; it must never print a private one.
import { existsSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { SETUP } from '../domain/commands.ts'
import { cleanText } from '../domain/clean.ts'
import { keyFile, KEYS } from '../store/seals/keys.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World } from './world.ts'

interface KeyOptions {
  station?: string
  by?: string
  why?: string
}

export const showKey = (world: World, options: KeyOptions): Promise<ExitStatus> =>
  withStation(world, options.station, ({ state }, folder) => {
    const { sealKey } = state
    if (sealKey === null) {
      print(world, 'There is no key yet. The first hand-over makes it, or "bayboard key make".')
      return 0
    }
    print(world, cleanText(sealKey))
    const file = join(folder, KEYS, keyFile(sealKey))
    if (!existsSync(file)) {
      const next = 'Bring the folder keys back from a copy, or make a new key with "bayboard key make".'
      return complain(world, `Its private half is not in ${file}, so nothing can be sealed. ${next}`, 1)
    }
    if ((statSync(file).mode & 0o077) !== 0) {
      return complain(world, `Others may read ${file}. Make it yours alone: chmod 600 ${file}`, 1)
    }
    return 0
  })

export const makeKey = (world: World, options: KeyOptions): Promise<ExitStatus> =>
  withStation(world, options.station, async (session) => {
    const { members, sealKey } = session.state
    if (options.by === undefined && members.size > 0) {
      return complain(world, 'Name the member who makes it: --by ID. No key was made.', 2)
    }
    if (sealKey !== null && !options.why) {
      const sentence = 'There is a key already. Say why it is replaced: --why "the old machine was sold".'
      return complain(world, `${sentence} No key was made.`, 2)
    }
    const answer = await session.makeKey(options.by ?? SETUP, cleanText(options.why ?? ''))
    if ('refused' in answer) return complain(world, answer.refused, 1)
    if ('failed' in answer) return complain(world, answer.failed, 3)
    print(
      world,
      `${session.state.sealKey}\nKeep this public key away from the station, with the printed seals.`,
    )
    return 0
  })
