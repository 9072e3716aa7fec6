// `bayboard key`: shows the public key that seals are checked with, or makes a new one; it must never print a private one.
import { existsSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { SETUP } from '../domain/commands.ts'
import { cleanText } from '../domain/clean.ts'
import { keyFile, KEYS } from '../store/seals/keys.ts'
import { openNote, parseNote } from '../store/seals/note.ts'
import { parseClaim } from '../store/seals/seal-text.ts'
import { sealsIn } from '../store/seals/seal.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World } from './world.ts'

interface KeyOptions {
  station?: string
  by?: string
  why?: string
  replace?: boolean
}

const privateFile = (folder: string, key: string): string => join(folder, KEYS, keyFile(key))

/** What would no longer be the newest key's: counted by the seals in the folder. */
function saySealed(folder: string, key: string): string {
  const sealed = sealsIn(folder).filter(({ text }) => openNote(text, [key]).kind === 'signed')
  const last = parseClaim(parseNote(sealed.at(-1)?.text ?? '')?.text ?? '')?.tour
  if (last === undefined) return 'it has sealed nothing yet.'
  return sealed.length === 1
    ? `it sealed tour ${last}.`
    : `it sealed ${sealed.length} tours, the last by name ${last}.`
}

export const showKey = (world: World, options: KeyOptions): Promise<ExitStatus> =>
  withStation(world, options.station, ({ state }, folder) => {
    const { sealKey } = state
    if (sealKey === null) {
      print(world, 'There is no key yet. The first hand-over makes it, or "bayboard key make".')
      return 0
    }
    print(world, cleanText(sealKey))
    const file = privateFile(folder, sealKey)
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
  withStation(world, options.station, async (session, folder) => {
    const { members, sealKey } = session.state
    if (options.by === undefined && members.size > 0) {
      return complain(world, 'Name the member who makes it: --by ID. No key was made.', 2)
    }
    if (sealKey !== null && !options.replace && existsSync(privateFile(folder, sealKey))) {
      const sentence = `There is a key and it works: ${saySealed(folder, sealKey)} No key was made. To make another in its place, add --replace.`
      return complain(world, sentence, 1)
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
