// What a session may do with keys and seals while it is alone with the journal; it must never write to the journal.
import type { Sealing } from '../../session.ts'
import { realFiles, type Files } from '../files.ts'
import type { Journal } from '../journal.ts'
import { codeOf, whyOf } from '../trouble.ts'
import { firstEntry } from './first-entry.ts'
import { makeKey, signingKey, vouchFor } from './keys.ts'
import { parseVkey } from './note.ts'
import { makeSeal } from './seal.ts'
import { originOf } from './seal-text.ts'

export const sealingOf = (folder: string, journal: Journal, files: Files = realFiles): Sealing => ({
  makeKey(replaces) {
    try {
      const old = replaces === null ? undefined : signingKey(files, folder, replaces)
      const name = replaces === null ? originIn(folder, files) : parseVkey(replaces)?.name
      if (name === undefined)
        return { failed: 'A key for the seals cannot be named: the journal does not say of which station.' }
      const { vkey } = makeKey(files, folder, name)
      return { key: vkey, vouched: old === undefined ? null : vouchFor(vkey, old) }
    } catch (error) {
      if (codeOf(error) === undefined) throw error
      return { failed: `A key for the seals cannot be made: ${whyOf(error)}. The journal is whole.` }
    }
  },
  seal(key, tour, at) {
    const { seq, hash } = journal.head
    return makeSeal(files, folder, key, { count: seq, head: hash, tour, at })
  },
})

const originIn = (folder: string, files: Files): string | undefined => {
  const first = firstEntry(folder, files)
  return first && originOf(String(first.data['name'] ?? ''), first.hash)
}
