// `bayboard receive`: takes back a batch by its filled-in care slip, all or nothing; every bad row is named by line and column.
import { count, toMend } from '../domain/count.ts'
import { readFileSync } from 'node:fs'
import { basename } from 'node:path'
import { cleanText } from '../domain/clean.ts'
import type { CommandOf } from '../domain/commands.ts'
import { batchFaults } from '../domain/decide/receive-batch.ts'
import { wordOf } from '../domain/kinds.ts'
import type { State } from '../domain/state.ts'
import { dateOf, type LocalDate } from '../domain/time.ts'
import { sayFaults, type Fault } from '../store/imports/fault.ts'
import { readSlip, type SlipRow } from '../store/imports/read-slip.ts'
import { whyOf } from '../store/trouble.ts'
import { askName } from './ask.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World, printLine } from './world.ts'

interface ReceiveOptions {
  station?: string
  by?: string
  dryRun?: boolean
}

const MOST_FAULTS = 200

export const receive = async (world: World, path: string, options: ReceiveOptions): Promise<ExitStatus> => {
  let bytes: Uint8Array
  try {
    bytes = readFileSync(path)
  } catch (error) {
    return complain(world, `${path} cannot be read: ${whyOf(error)}. Nothing was received.`, 3)
  }
  return withStation(world, options.station, async (session) => {
    const { state } = session
    const file = cleanText(basename(path)) || 'the file'
    const read = readSlip(bytes, file)
    const isTaken = 'rows' in read
    const faults = faultsOf(isTaken ? read.rows : read.readable, state, dateOf(session.now()))
    if (!isTaken) return refuseSlip(world, path, [...read.faults, ...faults])
    if (faults.length) return refuseSlip(world, path, faults)
    const { rows, notBack } = read
    const { elements, cares } = batchOf(rows)
    for (const note of read.notes) world.stderr.write(`Note: ${note}\n`)
    const bad = cares.filter((each) => each.result === 'unserviceable').length
    const stays = notBack.length ? `; ${notBack.length} not back: ${notBack.join(', ')}` : ''
    const brings = `${count(elements.length, 'element')} with ${count(cares.length, 'care')}, ${bad} of them unserviceable${stays}`
    if (!elements.length)
      return complain(world, `${path} brings nothing back${stays}. Nothing was recorded.`, 1)
    if (options.dryRun) {
      printLine(world, `${path} would bring back ${brings}. Nothing was recorded.`)
      return 0
    }
    const by = options.by ?? (await askName(world))
    if (by === undefined) {
      return complain(world, 'Name the member who receives it: --by ID. Nothing was recorded.', 2)
    }
    const answer = await session.submit({ do: 'receive-batch', by, file, elements, cares })
    if ('refused' in answer) return complain(world, answer.refused, 1)
    if ('failed' in answer) return complain(world, answer.failed, 3)
    print(world, `Received back ${brings}, as event ${answer.accepted[0]}.`)
    return 0
  })
}

const batchOf = (rows: readonly SlipRow[]): Pick<CommandOf<'receive-batch'>, 'elements' | 'cares'> => ({
  elements: [...new Set(rows.map((each) => each.element))],
  cares: rows.flatMap((each) => each.care ?? []),
})

/** What the books have against the rows. */
const faultsOf = (rows: readonly SlipRow[], state: State, today: LocalDate): Fault[] => [
  ...faultsOfLabel(rows, state),
  ...batchFaults(batchOf(rows), state, today).map(({ element, care, column, says }) => {
    const named = rows.filter((each) => each.element === element)
    const row = named.findLast((each) => care === undefined || each.care?.care === care) ?? named[0]
    return { line: row?.line ?? 1, column, says }
  }),
]

/** A mangled id that is another element's by chance shows by its kind, and by its serial a piece that took another's place. */
const faultsOfLabel = (rows: readonly SlipRow[], { elements }: State): Fault[] =>
  rows.flatMap(({ line, element, ...said }) => {
    const known = elements.get(element)
    if (!known) return []
    const kind = said.kind.toLowerCase()
    const word = wordOf(known.kind)
    const faults: Fault[] = []
    if (kind !== '' && kind !== known.kind && kind !== word) {
      const says = `the kind of ${element} is ${word}, and the row says ${kind}.`
      faults.push({ line, column: 'kind', says })
    }
    if (said.serial !== '' && known.serial && bare(said.serial) !== bare(known.serial)) {
      const says = `the serial of ${element} is ${known.serial}, and the row says ${said.serial}: see which piece came back.`
      faults.push({ line, column: 'serial', says })
    }
    return faults
  })

/** A serial as far as a spreadsheet leaves it: without the zeros before it. */
const bare = (serial: string): string => serial.toUpperCase().replace(/^0+(?=\d)/, '')

function refuseSlip(world: World, path: string, faults: readonly Fault[]): ExitStatus {
  for (const sentence of sayFaults(faults, MOST_FAULTS)) world.stderr.write(`${cleanText(sentence)}\n`)
  const sentence = `${path} has ${count(faults.length, 'fault')}. Nothing was received.`
  return complain(world, `${sentence} ${toMend(faults.length, 'receive')}`, 1)
}
