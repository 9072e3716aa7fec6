// `bayboard policy`: the rules in force with their sources; checks or adopts a department's overlay.
import { count } from '../domain/count.ts'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { cleanText } from '../domain/clean.ts'
import { parseCommand, SETUP } from '../domain/commands.ts'
import { plain, wordOf } from '../domain/kinds.ts'
import { saySource } from '../domain/explain.ts'
import { baseOf } from '../domain/policy/bases.ts'
import { faultsOf, layOver, policyOf, sayLimit, sayLooserRules } from '../domain/policy/in-force.ts'
import { writingFaults } from '../domain/policy/overlay-faults.ts'
import { overlayShape, type Overlay, type RuleInForce } from '../domain/policy/shape.ts'
import type { State } from '../domain/state.ts'
import { sayDuration } from '../domain/time.ts'
import { whyOf } from '../store/trouble.ts'
import { askPins, pinsOf } from './ask-pin.ts'
import { writeWhole } from './write-file.ts'
import { withStation } from './opened.ts'
import { complain, print, printLine, type ExitStatus, type World } from './world.ts'

interface PolicyOptions {
  station?: string
  by?: string
}

export const showPolicy = (world: World, options: PolicyOptions): Promise<ExitStatus> =>
  withStation(world, options.station, ({ state }) => {
    const policy = policyOf(state)
    const lines = [`Policy: ${policy.name}${policy.overlay ? `, with ${policy.overlay}` : ''}`]
    if (policy.provisional) lines.push(`Not confirmed: ${policy.provisional}`)
    for (const rule of policy.rules) lines.push('', ...sayRule(rule))
    for (const { rule, reason } of policy.off)
      lines.push('', `${rule.id}: SWITCHED OFF, looser than the base: ${reason}`)
    print(world, lines.join('\n'))
    return 0
  })

function sayRule({ rule, reason, looser, isAdded }: RuleInForce): string[] {
  const limit = rule.limit === undefined ? '' : `Limit ${sayLimit(rule.limit)}. `
  const first = rule.first ? `First after ${sayDuration(rule.first)}. ` : ''
  const warn = rule.warn ? `Warns ${sayDuration(rule.warn)} ahead. ` : ''
  return [
    `${rule.id} (${rule.matter})`,
    `  ${rule.why}`,
    `  For: ${rule.kinds.map(wordOf).join(', ')}.`,
    `  ${limit}${first}${warn}Past it: ${plain(rule.past)}.`,
    `  Source: ${saySource(rule)}.`,
    ...(reason ? [`  ${isAdded ? 'Added' : 'Changed'} by the department: ${reason}`] : []),
    ...(looser ? [`  LOOSER than the base: ${looser}.`] : []),
  ]
}

/** The overlay in a file, or every sentence about what is wrong with it. */
function readOverlay(
  state: State,
  file: string,
): { overlay: Overlay } | { unreadable: string } | { faults: string[] } {
  let input: unknown
  try {
    input = JSON.parse(readFileSync(file, 'utf8'))
  } catch (error) {
    const why = error instanceof SyntaxError ? `it is not JSON (${error.message})` : whyOf(error)
    return { unreadable: `${file} cannot be read: ${why}. Nothing was changed.` }
  }
  const parsed = overlayShape.safeParse(input)
  if (!parsed.success) return { faults: writingFaults(parsed.error, input) }
  const faults = faultsOf(baseOf(state), parsed.data)
  return faults.length ? { faults } : { overlay: parsed.data }
}

const refuseOverlay = (world: World, file: string, faults: string[]): ExitStatus => {
  for (const fault of faults) world.stderr.write(`${cleanText(fault)}\n`)
  return complain(
    world,
    `${file} cannot be adopted: ${count(faults.length, 'fault')}. Nothing was changed.`,
    1,
  )
}

export const checkPolicy = (world: World, file: string, options: PolicyOptions): Promise<ExitStatus> =>
  withStation(world, options.station, ({ state }) => {
    const read = readOverlay(state, file)
    if ('unreadable' in read) return complain(world, read.unreadable, 3)
    if ('faults' in read) return refuseOverlay(world, file, read.faults)
    const { changes, add } = read.overlay
    const looser = sayLooserRules(layOver(baseOf(state), read.overlay))
    printLine(world, `${file} can be adopted: ${count(changes.length, 'rule')} changed, ${add.length} added.`)
    for (const each of looser) printLine(world, `Looser than the published base: ${each}.`)
    if (!looser.length) printLine(world, 'No rule is looser than the published base.')
    return 0
  })

export const adoptPolicy = (world: World, file: string, options: PolicyOptions): Promise<ExitStatus> =>
  withStation(world, options.station, async (session, folder) => {
    const read = readOverlay(session.state, file)
    if ('unreadable' in read) return complain(world, read.unreadable, 3)
    if ('faults' in read) return refuseOverlay(world, file, read.faults)
    const { overlay } = read
    if (options.by === undefined && session.state.members.size > 0) {
      return complain(world, 'Name the member who adopts it: --by ID. Nothing was changed.', 2)
    }
    const by = options.by ?? SETUP
    const given = await askPins(pinsOf(world), session.state, { do: 'adopt-policy', by })
    const parsed = parseCommand({ do: 'adopt-policy', by, overlay, ...given })
    if ('refused' in parsed) return complain(world, parsed.refused, 1)
    const answer = await session.submit(parsed.command)
    if ('refused' in answer) {
      const named = options.by === undefined ? ' Name the member with --by.' : ''
      return complain(world, `${answer.refused}${named}`, 1)
    }
    if ('failed' in answer) return complain(world, answer.failed, 3)
    // A copy to read; the journal holds the overlay that counts.
    const copy = join(folder, 'policy', 'overlay.json')
    const trouble = writeWhole(copy, `${JSON.stringify(overlay, null, 2)}\n`, true)
    print(world, `Adopted "${overlay.name}" as event ${answer.accepted[0]}.`)
    if (trouble) complain(world, `It is in force, but the copy to read was not kept: ${trouble}`, 0)
    return 0
  })
