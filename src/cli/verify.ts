// `bayboard verify`: checks every line, the chain and the seals and reports every fault with its line; it must never repair.
import { count } from '../domain/count.ts'
import { readFileSync } from 'node:fs'
import { cleanText } from '../domain/clean.ts'
import { sayTorn } from '../exports/status.ts'
import { sayLostJournal } from '../store/lost-journal.ts'
import { checkJournal, type Checked, type SealCheck } from '../store/seals/check-seals.ts'
import { parseVkey } from '../store/seals/note.ts'
import { whyOf } from '../store/trouble.ts'
import { keptIn, SEALS_ARE_READ_FROM } from './kept-seal.ts'
import { complain, print, stationFolder, type ExitStatus, type World } from './world.ts'

interface VerifyOptions {
  station?: string
  json?: boolean
  against?: string[]
  key?: string
}

export function verify(world: World, options: VerifyOptions): ExitStatus {
  const folder = stationFolder(world, options.station)
  const key = options.key === undefined ? undefined : keyIn(options.key)
  if (key === null) {
    const sentence =
      'The key given is no public key. Write it as "bayboard key" shows it, or name a file of it.'
    return complain(world, sentence, 2)
  }
  const against = []
  for (const path of options.against ?? []) {
    try {
      const kept = keptIn(readFileSync(path))
      if (kept === 'pdf') {
        const sentence = `${path} is a PDF, and no seal is read from one. ${SEALS_ARE_READ_FROM} Nothing was checked.`
        return complain(world, sentence, 3)
      }
      against.push({ name: path, ...kept })
    } catch (error) {
      return complain(world, `The seal ${path} cannot be read: ${whyOf(error)}. Nothing was checked.`, 3)
    }
  }
  const isWatched = world.stderr.isTTY && !options.json
  const checked = checkJournal(folder, {
    against,
    ...(key !== undefined && { key }),
    ...(isWatched && {
      onProgress: (done, total) => world.stderr.write(`\rChecked ${Math.floor((done / total) * 100)}% `),
    }),
  })
  if (isWatched) world.stderr.write('\r')
  if (checked.kind === 'no-station') {
    const none = `There is no station in ${folder}. Make one with "bayboard init".`
    return complain(world, sayLostJournal(folder) ?? none, 3)
  }
  if (checked.kind === 'unreadable') return complain(world, checked.sentence, 3)
  const failing = [...checked.seals, ...checked.against].filter((each) => !each.holds).length
  const verifies = failing === 0 && checked.faults.length === 0
  print(world, options.json ? asJson(checked, verifies) : linesOf(checked, failing, folder).join('\n'))
  return verifies ? 0 : 1
}

/** A key as text or the file that holds it; null for neither. */
function keyIn(given: string): string | null {
  if (parseVkey(given)) return given
  try {
    const text = readFileSync(given, 'utf8').trim()
    return parseVkey(text) ? text : null
  } catch {
    return null
  }
}

const asJson = ({ lines, head, faults, torn, seals, against, unsealed, keys }: Checked, verifies: boolean) =>
  JSON.stringify({
    verifies,
    lines,
    head: head.hash,
    faults,
    torn: torn ?? null,
    seals,
    against,
    unsealed,
    keys,
  })

const saySeal = ({ seal, holds, what, tour, lines }: SealCheck): string =>
  cleanText(
    holds && tour !== null
      ? `${seal}: it holds. The first ${lines} lines are as they were when tour ${tour} was handed over.`
      : `${seal}: ${what}`,
  )

/** Whoever reads one line reads this one. */
function sayVerdict(
  { lines, head, faults, seals, against }: Checked,
  failing: number,
  folder: string,
): string {
  if (faults.length) {
    const what = `${count(faults.length, 'fault')} in ${count(lines, 'line')}`
    return `The journal does not verify: ${what}. Nothing was repaired. Keep a copy of ${cleanText(folder)}, and bring back a good copy of it.`
  }
  const told = `${count(lines, 'line')}, head ${head.hash}`
  if (!failing) return `The journal verifies: ${told}.`
  const which = `${failing} of ${count(seals.length + against.length, 'seal')}`
  return `The journal does not verify: ${which} ${failing === 1 ? 'does' : 'do'} not hold, as told below. Its own chain holds: ${told}.`
}

function linesOf(checked: Checked, failing: number, folder: string): string[] {
  const { faults, torn, seals, against, unsealed, keys } = checked
  const holding = seals.filter((each) => each.holds).length
  return [
    sayVerdict(checked, failing, folder),
    ...faults.map(({ line, what }) => `Line ${line}: ${what}`),
    ...(torn ? [sayTorn(torn.bytes)] : []),
    ...seals.filter((each) => !each.holds).map((each) => `Seal ${saySeal(each)}`),
    ...(seals.length ? [`Seals in the folder seals: ${holding} of ${seals.length} hold.`] : []),
    ...(unsealed.length
      ? [`Handed over without a seal: ${sayFew(unsealed)}. "bayboard seal" makes what is missing.`]
      : []),
    ...keys
      .filter(({ replaces, isVouched }) => replaces !== null && !isVouched)
      .map(
        ({ line, key }) =>
          `The key ${cleanText(key.split('+')[1] ?? '')} of line ${line} is not vouched for by the one before it.`,
      ),
    ...against.map(
      (each) => `Against ${saySeal(each)}${each.lines === null ? ` ${SEALS_ARE_READ_FROM}` : ''}`,
    ),
  ]
}

const sayFew = (tours: readonly string[]): string =>
  tours.length > 3 ? `${tours.length} tours, the last of them ${tours.at(-1)}` : tours.join(', ')
