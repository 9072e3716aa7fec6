// Seals of a station, one signed note a hand-over in seals/; a seal that cannot be made is said and stops nothing else.
import { isUtf8 } from 'node:buffer'
import { join } from 'node:path'
import { cleanText } from '../../domain/clean.ts'
import { makeFolderToStay, placeFile, readWhole, realFiles, type Files } from '../files.ts'
import { sha256 } from '../line.ts'
import { codeOf, whyOf } from '../trouble.ts'
import { signingKey } from './keys.ts'
import { parseNote, parseVkey, signNote } from './note.ts'
import { claimText, parseClaim, type Claim } from './seal-text.ts'

export const SEALS = 'seals'
const ENDING = '.note'
/** A seal is a few hundred bytes. */
const MOST_BYTES = 64 * 1024

/** `path` of the seal, or the sentence that says why there is none. */
export type Sealed = { path: string } | { failed: string }

export type SealFile = { name: string; path: string; text: string }

/** A tour's id from elsewhere may hold any text: it never leads out of the folder. */
const safe = (tour: string): string => tour.replaceAll(/[^A-Za-z0-9_.-]|^\.+/g, '_').slice(0, 80)

/** Under the tour's own name, unless the seal of a tour of nearly that name (`.A` and `_A`) has it; that one is left alone. */
const nameOf = (files: Files, place: string, tour: string): string => {
  const usual = `${safe(tour)}${ENDING}`
  const there = tourOf(readSeal(files, join(place, usual)))
  const isOthers = there !== undefined && there !== cleanText(tour)
  return isOthers ? `${safe(tour)}~${sha256(tour).slice(0, 8)}${ENDING}` : usual
}

const tourOf = (seal: string | undefined): string | undefined =>
  parseClaim(parseNote(seal ?? '')?.text ?? '')?.tour

/** Signs that the journal's first `count` lines end with the line whose hash is `head`. */
export const makeSeal = (files: Files, folder: string, vkey: string, said: Omit<Claim, 'origin'>): Sealed => {
  const place = join(folder, SEALS)
  const name = nameOf(files, place, said.tour)
  const path = join(place, name)
  try {
    const key = signingKey(files, folder, vkey)
    if (key === undefined) return { failed: sayLost(vkey) }
    if (files.stat(path) !== undefined) return { failed: `${path} is there already. It was left as it is.` }
    const origin = parseVkey(vkey)!.name
    const note = signNote(claimText({ ...said, tour: cleanText(said.tour), origin }), key)
    makeFolderToStay(files, place)
    placeFile(files, place, name, Buffer.from(note))
    return { path }
  } catch (error) {
    if (codeOf(error) === undefined) throw error
    return {
      failed: `The seal of tour ${cleanText(said.tour)} was not kept: ${whyOf(error)}. The journal is whole. Put that right, then ask for "bayboard seal".`,
    }
  }
}

const sayLost = (vkey: string): string =>
  `The private half of the key ${parseVkey(vkey)?.id.toString('hex')} is not in the folder keys, so no seal was made. The journal is whole. ` +
  'Bring the folder keys back from a copy, or make a new key with "bayboard key make"; then ask for "bayboard seal".'

/** The seal made when this tour was handed over, to be printed or kept elsewhere; undefined where there is none. */
export const newestSeal = (
  folder: string,
  tour: string,
  files: Files = realFiles,
): { text: string; path: string } | undefined => {
  const place = join(folder, SEALS)
  const path = join(place, nameOf(files, place, tour))
  const text = readSeal(files, path)
  return text !== undefined && tourOf(text) === cleanText(tour) ? { text, path } : undefined
}

const readSeal = (files: Files, path: string): string | undefined => {
  try {
    if ((files.stat(path)?.size ?? MOST_BYTES + 1) > MOST_BYTES) return undefined
    const bytes = readWhole(files, path)
    return isUtf8(bytes) ? bytes.toString('utf8') : undefined
  } catch (error) {
    if (codeOf(error) === undefined) throw error
    return undefined
  }
}

/** Every seal in the station's folder, by name. `text` is empty for one that cannot be read. */
export const sealsIn = (folder: string, files: Files = realFiles): SealFile[] => {
  const place = join(folder, SEALS)
  return namesIn(place, files)
    .toSorted()
    .map((name) => {
      const path = join(place, name)
      return { name, path, text: readSeal(files, path) ?? '' }
    })
}

const namesIn = (place: string, files: Files): string[] => {
  try {
    return files.list(place).filter((name) => name.endsWith(ENDING) && !name.startsWith('.'))
  } catch (error) {
    if (['ENOENT', 'ENOTDIR'].includes(codeOf(error) ?? '')) return []
    throw error
  }
}

/** The text of the seal whose name is the last, T10 after T9; one small file is read, however many seals there are. */
export const newestIn = (folder: string, files: Files): string | undefined => {
  const place = join(folder, SEALS)
  const { compare } = new Intl.Collator('en', { numeric: true })
  let last: string | undefined
  for (const name of namesIn(place, files)) if (last === undefined || compare(name, last) > 0) last = name
  return last === undefined ? undefined : readSeal(files, join(place, last))
}
