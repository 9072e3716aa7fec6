// The coverage as `coverage` prints it, as data and as text; it must never leave out a place.
import { z } from 'zod'
import type { Coverage, CoveredPlace } from '../domain/coverage/coverage.ts'
import { kindShape } from '../domain/gear.ts'
import { wordOf } from '../domain/kinds.ts'
import { INVENTED } from '../domain/signs.ts'
import type { State } from '../domain/state.ts'
import { clockOf, dateOf, sayDate } from '../domain/time.ts'
import { cleanAll } from './clean-out.ts'

const placeShape = z.strictObject({
  seat: z.string(),
  position: z.string(),
  rig: z.string(),
  member: z.string(),
  name: z.string(),
  kind: kindShape,
  element: z.string().nullable(),
  /** The spares of this kind that could take its place. */
  spares: z.array(z.string()),
})

export const coverageShape = z.strictObject({
  at: z.string(),
  station: z.string(),
  words: z.string(),
  places: z.array(placeShape),
  kinds: z.array(
    z.strictObject({
      kind: kindShape,
      none: z.number().int(),
      one: z.number().int(),
      more: z.number().int(),
    }),
  ),
  /** Where one loss leaves somebody without. */
  holes: z.array(placeShape),
  /** Spares that are the only one for somebody. */
  lastSpares: z.array(z.strictObject({ spare: z.string(), kind: kindShape, seats: z.array(z.string()) })),
  /** Cylinders on the rack to be read before any is bought. */
  toRead: z.array(z.string()),
  /** The fewest more spares after which any one element in use can be replaced. */
  buy: z.array(
    z.strictObject({
      kinds: z.array(kindShape),
      size: z.string().nullable(),
      model: z.string().nullable(),
      seats: z.array(z.string()),
      words: z.string(),
      instead: z.string().nullable(),
    }),
  ),
  proven: z.boolean(),
  unmeasured: z.array(z.strictObject({ seat: z.string(), kind: kindShape, words: z.string() })),
  invented: z.boolean(),
})
type CoverageJson = z.infer<typeof coverageShape>

export function coverageJson({ station }: State, { isProven, ...coverage }: Coverage): CoverageJson {
  return cleanAll({
    ...coverage,
    proven: isProven,
    station: station?.name ?? '',
    invented: station?.invented ?? false,
  })
}

export function coverageText({ station }: State, dirty: Coverage): string {
  const { said, name } = cleanAll({ said: dirty, name: station?.name ?? '' })
  const lines = [
    ...(station?.invented ? [INVENTED] : []),
    `${name}, ${sayDate(dateOf(said.at))} ${clockOf(said.at)}`,
    said.words,
  ]
  if (said.kinds.length) {
    lines.push('', 'Riding positions by how many spares fit       none  one  more')
    for (const { kind, none, one, more } of said.kinds)
      lines.push(
        `  ${wordOf(kind).padEnd(42)}${[none, one, more].map((each) => String(each).padStart(6)).join('')}`,
      )
  }
  lines.push(...detailsOf(said))
  return `${lines.join('\n')}\n`
}

/** What to read and what to do about it first, then who would be left without, then what hangs on one spare. */
export function detailsOf(said: Coverage): string[] {
  const lines: string[] = []
  if (said.toRead.length)
    lines.push('', `On the rack, to be read before any cylinder is bought: ${said.toRead.join(', ')}.`)
  if (said.buy.length) {
    lines.push(
      '',
      `What to buy first${said.isProven ? ', the fewest there can be' : ' (a smaller list may exist)'}:`,
    )
    said.buy.forEach(({ words, seats, instead }, index) => {
      lines.push(`  ${index + 1}. ${words}: covers ${seats.join(', ')}`)
      if (instead) lines.push(`     first look: ${instead}`)
    })
  }
  if (said.unmeasured.length) lines.push('', 'Before anything can be bought for them:')
  lines.push(...said.unmeasured.map(({ seat, words }) => `  ${seat}: ${words}`))
  if (said.holes.length) lines.push('', 'One loss leaves them without:')
  for (const [who, kinds] of bySeat(said.holes)) lines.push(`  ${who}: ${kinds.join(', ')}`)
  if (said.lastSpares.length) lines.push('', 'The only spare for somebody:')
  for (const { spare, kind, seats } of said.lastSpares)
    lines.push(`  ${wordOf(kind)} ${spare}: for ${seats.join(', ')}`)
  return lines
}

function bySeat(holes: readonly CoveredPlace[]): Map<string, string[]> {
  const seats = new Map<string, string[]>()
  for (const { seat, position, name, kind, element } of holes) {
    const who = `${seat} ${position}, ${name}`
    const what = `${wordOf(kind)}${element ? ` ${element}` : ' (missing)'}`
    seats.set(who, [...(seats.get(who) ?? []), what])
  }
  return seats
}
