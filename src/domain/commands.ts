// Every command the board, a subcommand or a script can give; it says what is well formed, never what is allowed.
import * as z from 'zod'
import { cleanText } from './clean.ts'
import {
  careShape,
  celsiusShape,
  coverShape,
  dateShape,
  doneCareShape,
  doneFitTestShape,
  elementShape,
  exposureShape,
  findingShape,
  idShape,
  importedShape,
  kindShape,
  matterShape,
  memberShape,
  psiShape,
  rigShape,
  wordsShape,
} from './gear.ts'
import type { PinField, Proof } from './pin.ts'
import { overlayShape } from './policy/shape.ts'
import { instantToMs, type Instant } from './time.ts'
import { sayShapeError } from './shape-error.ts'

/** Who gives a command before the station has a member, and for what is set up or imported. */
export const SETUP = 'setup'

const common = {
  by: idShape,
  at: z
    .string()
    .refine(
      (text) => instantToMs(text) !== undefined,
      'must be an instant with its offset, as 2026-11-24T07:02:11-05:00',
    )
    .optional(),
}
const ids = z.array(idShape).min(1, 'must name at least one').max(500)

/** Never in an event, an answer or a log: the session keeps what scrypt makes of it. */
const pinShape = z
  .string()
  .regex(/^[0-9]{4,12}$/, 'must be 4 to 12 digits')
  .meta({ writeOnly: true, description: 'A PIN; what is kept of it is scrypt of it with a salt.' })

const command = <Name extends string, Shape extends z.ZodRawShape>(name: Name, shape: Shape) =>
  z.strictObject({ do: z.literal(name), ...common, ...shape })

export const commandShape = z.discriminatedUnion('do', [
  command('add-rig', { rig: rigShape }),
  command('add-member', { member: memberShape }),
  command('add-element', { element: elementShape }),
  command('import-gear', {
    file: wordsShape,
    members: z.array(memberShape),
    elements: z.array(importedShape),
  }),
  command('import-records', {
    file: wordsShape,
    members: z.array(memberShape),
    elements: z.array(importedShape),
    cares: z.array(doneCareShape),
    fitTests: z.array(doneFitTestShape),
    /** `was` is what the books said as the difference was shown; should they say something else by now, it is refused. */
    changes: z.array(
      z.strictObject({
        id: idShape,
        was: z.record(z.string(), z.unknown()),
        with: z.record(z.string(), z.unknown()),
      }),
    ),
  }),
  command('issue', {
    element: idShape,
    to: idShape,
    /** Today where it is left away; null where it is in use since nobody knows when. */
    on: dateShape.nullable().optional(),
  }),
  command('return-to-rack', { element: idShape }),
  command('open-tour', { tour: idShape, platoon: wordsShape, officer: idShape, on: dateShape }),
  command('seat-member', { seat: idShape, member: idShape, as: coverShape.optional() }),
  command('clear-seat', { seat: idShape }),
  command('answer', { seat: idShape, findings: z.array(findingShape).max(50).optional() }),
  command('read-pressure', { element: idShape, psi: psiShape, celsius: celsiusShape.optional() }),
  command('tag', { element: idShape, reason: wordsShape, matter: matterShape }),
  command('lift-tag', {
    element: idShape,
    basis: wordsShape,
    /** The events of the tags that were read; a tag that came meanwhile then refuses the lifting. */
    tags: z.array(z.number().int().min(1)).max(100).optional(),
  }),
  command('swap', { seat: idShape, out: idShape.optional(), in: idShape, reason: wordsShape.optional() }),
  command('swap-back', { seat: idShape, kind: kindShape }),
  command('record-exposure', {
    exposure: exposureShape,
    seats: ids.optional(),
    elements: ids.optional(),
    incident: wordsShape.optional(),
  }),
  command('record-care', doneCareShape.shape),
  command('record-fit-test', doneFitTestShape.shape),
  command('send-away', { elements: ids, to: wordsShape, for: careShape }),
  command('receive-back', {
    elements: ids,
    /** It never left, nor was it ever held: undoing says so. Otherwise what was held comes back tagged, and what was sent for repair unproven. */
    byMistake: z.literal(true).optional(),
  }),
  command('receive-batch', {
    elements: ids,
    cares: z.array(doneCareShape).max(2000),
    file: wordsShape.optional(),
  }),
  command('hold', { element: idShape, reason: wordsShape }),
  command('retire', { element: idShape, reason: wordsShape, disposal: wordsShape }),
  command('note', { text: wordsShape }),
  command('amend', {
    seq: z.number().int().min(1),
    why: wordsShape,
    with: z.record(z.string(), z.unknown()),
  }),
  command('acknowledge', { item: z.string().min(1).max(80) }),
  command('hand-over', {
    to: idShape,
    pin: pinShape.optional(),
    /** Whoever takes over has read back what is open; their PIN says so, where they have one. */
    readBack: z.literal(true).optional(),
    readBackPin: pinShape.optional(),
  }),
  command('adopt-policy', { overlay: overlayShape, pin: pinShape.optional() }),
  /** `pin` is the new one, `old` the one it replaces; a first one needs that of the tour's officer. */
  command('set-pin', { pin: pinShape, old: pinShape.optional(), officerPin: pinShape.optional() }),
  command('clear-pin', { member: idShape, why: wordsShape, pin: pinShape.optional() }),
])

export type Command = z.infer<typeof commandShape>
export type CommandName = Command['do']
export type CommandOf<Name extends CommandName> = Extract<Command, { do: Name }>
/** A command before it is known who gives it. */
export type Unsigned = Command extends infer C ? (C extends Command ? Omit<C, 'by'> : never) : never
export type WithoutPin<C> = C extends unknown ? Omit<C, PinField> : never
/**
 * A command as it reaches `decide`: its instant is known and is written in the station's zone, and whether that is past and
 * entered late; of a PIN only what was proved.
 */
export type Dated<C extends Command = Command> = WithoutPin<C> & {
  at: Instant
  isLate?: boolean
  proof?: Proof | undefined
}

export const COMMAND_NAMES: readonly CommandName[] = commandShape.options.map(
  (option) => option.shape.do.value,
)

export function parseCommand(input: unknown): { command: Command } | { refused: string } {
  const parsed = commandShape.safeParse(input)
  if (parsed.success) return { command: parsed.data }
  const name = typeof input === 'object' && input !== null && 'do' in input ? input.do : undefined
  if (!COMMAND_NAMES.includes(name as CommandName)) {
    const given =
      typeof name === 'string'
        ? `"${cleanText(name.slice(0, 40))}" is not a command`
        : 'A command needs a "do"'
    return { refused: `${given}. The commands are: ${COMMAND_NAMES.join(', ')}.` }
  }
  return { refused: `${String(name)}: ${sayShapeError(parsed.error)} Nothing was recorded.` }
}
