// Asks heading by heading which column it is, where a file's headings do not say; it must never choose for the one who is asked.
import { COLUMN_NAMES, UNUSED } from '../store/imports/columns.ts'
import { show, showAll } from '../store/imports/fault.ts'
import { keyOf, type AnyColumn } from '../store/imports/headings.ts'
import type { FileRead } from '../store/imports/read-gear.ts'
import { FILE_SORTS, type FileSort } from '../store/imports/record-columns.ts'
import { recordColumns } from '../store/imports/record-headings.ts'
import { ask } from './ask.ts'
import type { World } from './world.ts'

type Unmatched = NonNullable<Extract<FileRead, { faults: unknown }>['unmatched']>
interface Guided {
  map: Record<string, string>
  as: FileSort
}

const SAMPLES = 3
const SORT_WORDS: Record<FileSort, string> = {
  gear: 'gear or members',
  cares: 'cares that were done',
  'fit-tests': 'fit tests',
}

const columnsOf = (sort: FileSort): readonly AnyColumn[] =>
  sort === 'gear' ? COLUMN_NAMES : recordColumns(sort)

/** A number of a list, or nothing for Enter; asked again until it is one of these. */
async function choose<T>(
  world: World,
  options: readonly T[],
  say: (option: T) => string,
): Promise<T | undefined> {
  const width = String(options.length).length
  const words = options.map((each, index) => `${String(index + 1).padStart(width)} ${say(each)}`)
  const column = Math.max(...words.map((each) => each.length)) + 2
  const across = Math.max(1, Math.floor(78 / column))
  for (let at = 0; at < words.length; at += across) {
    world.stderr.write(
      `  ${words
        .slice(at, at + across)
        .map((each) => each.padEnd(column))
        .join('')
        .trimEnd()}\n`,
    )
  }
  for (;;) {
    const answer = await ask(world, 'Number, or Enter to leave it out: ')
    if (answer === '') return undefined
    const option = /^\d+$/.test(answer) ? options[Number(answer) - 1] : undefined
    if (option !== undefined) return option
    world.stderr.write(`There is no ${show(answer)} in the list.\n`)
  }
}

/** What the user said, or nothing when every heading was left out. */
export async function guideMap(
  world: World,
  { sort, head, rows }: Unmatched,
  { map, as }: { map?: Record<string, string>; as?: FileSort },
): Promise<Guided | undefined> {
  world.stderr.write(`The headings do not say what is what: ${showAll(head.cells.filter(Boolean))}.\n`)
  let holds = as
  if (holds === undefined) {
    world.stderr.write(`What does the file hold? Enter takes ${SORT_WORDS[sort]}.\n`)
    holds = (await choose(world, FILE_SORTS, (each) => SORT_WORDS[each])) ?? sort
  }
  const chosen: Record<string, string> = { ...map }
  let isAnswered = false
  for (const [index, heading] of head.cells.entries()) {
    if (heading === '' || Object.keys(chosen).some((each) => keyOf(each) === keyOf(heading))) continue
    const samples = rows
      .map(({ cells }) => cells[index] ?? '')
      .filter(Boolean)
      .slice(0, SAMPLES)
    world.stderr.write(
      `\nColumn ${show(heading)}, with ${samples.length ? showAll(samples) : 'nothing in it'}:\n`,
    )
    const taken = Object.values(chosen)
    const column = await choose(
      world,
      columnsOf(holds).filter((each) => !taken.includes(each)),
      (each) => each,
    )
    chosen[heading] = column ?? UNUSED
    isAnswered ||= column !== undefined
  }
  if (!isAnswered) return undefined
  const told = Object.entries(chosen).map(
    ([heading, column]) => `--map ${JSON.stringify(`${heading}=${column}`)}`,
  )
  world.stderr.write(`\nThe next time: --as ${holds} ${told.join(' ')}\n`)
  return { map: chosen, as: holds }
}
