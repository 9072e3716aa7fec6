// Why a riding position cannot be served beside those that are: too few spares for too many (Hall's condition), which a
// person can count. It must never name a set that is not short.
import { byShared, isOneLot } from './lots.ts'
import { isServed } from './check.ts'
import type { Choice, PlanModel } from './model.ts'

/** These gaps can take only these spares, and they cannot all be mended by them. */
interface Shortage {
  gaps: number[]
  spares: number[]
  /** How many gaps the spares can mend at the most, where they go in only together and so can be counted. */
  mends: number | null
}

/** The spares by whether they go in only together, prepared once for a model. */
interface Lots {
  of: readonly number[]
  /** Those of which more than one gap may take a part. */
  isLoose: readonly boolean[]
}

const known = new WeakMap<PlanModel, Lots>()

function lotsOf(model: PlanModel): Lots {
  const kept = known.get(model)
  if (kept) return kept
  const of: number[] = model.options.map(() => -1)
  const isLoose = byShared(model).map((group, lot) => {
    for (const option of group) of[option] = lot
    return !isOneLot(model, group)
  })
  const made = { of, isLoose }
  known.set(model, made)
  return made
}

/** The smallest shortage that keeps this riding position unserved; none when it is unserved for no such reason. */
export function shortageOf(model: PlanModel, choice: Choice, seat: number): Shortage | undefined {
  const lots = lotsOf(model)
  const found = model.seats[seat]!.gaps.flatMap((gap) => shortAt(model, lots, choice, gap) ?? [])
  return found.toSorted((a, b) => a.gaps.length - b.gaps.length)[0]
}

/**
 * From the gap along what could mend it to whoever takes that, and so on: when no free lot is met, those gaps are one more than
 * their lots. The set so reached is the smallest one that holds the gap.
 */
function shortAt(model: PlanModel, lots: Lots, choice: Choice, gap: number): Shortage | undefined {
  const takers = new Map<number, number>()
  choice.forEach((option, other) => {
    if (option !== null) takers.set(lots.of[option]!, other)
  })
  const gaps = [gap]
  const met = new Set<number>()
  for (const each of gaps) {
    for (const option of model.gaps[each]!.options) {
      const lot = lots.of[option]!
      if (lots.isLoose[lot]) return looseShortage(model, choice, gap)
      if (met.has(lot)) continue
      met.add(lot)
      const taker = takers.get(lot)
      if (taker === undefined) return undefined
      if (!gaps.includes(taker)) gaps.push(taker)
    }
  }
  // Whoever else can take only of the same is as short of them.
  const same = model.gaps.flatMap(({ seat, options }, other) =>
    !gaps.includes(other) && !isServed(model, choice, seat) && options.every((one) => met.has(lots.of[one]!))
      ? other
      : [],
  )
  const all = [...gaps, ...same].toSorted((a, b) => a - b)
  return { gaps: all, spares: sparesOf(model, all), mends: met.size }
}

const sparesOf = ({ gaps, options }: PlanModel, of: readonly number[]): number[] =>
  [...new Set(of.flatMap((gap) => gaps[gap]!.options.flatMap((option) => options[option]!.uses)))].toSorted(
    (a, b) => a - b,
  )

/** Where parts of one assembly can serve several, every way of sharing them out is tried. */
function looseShortage(model: PlanModel, choice: Choice, gap: number): Shortage | undefined {
  const wanted = new Set(sparesOf(model, [gap]))
  let gaps = [gap]
  for (let grew = true; grew;) {
    const next = model.gaps.flatMap((_, other) =>
      other === gap || (choice[other] !== null && sparesOf(model, [other]).some((each) => wanted.has(each)))
        ? other
        : [],
    )
    for (const each of sparesOf(model, next)) wanted.add(each)
    grew = next.length > gaps.length
    gaps = next
  }
  if (canMendAll(model, gaps) !== false) return undefined
  for (const other of gaps) {
    const fewer = gaps.filter((each) => each !== other)
    if (other !== gap && canMendAll(model, fewer) === false) gaps = fewer
  }
  return { gaps, spares: sparesOf(model, gaps), mends: null }
}

const MOST_TRIES = 20_000

/** Can all these gaps be mended at once? Undefined when there are too many ways to try them all. */
export function canMendAll(model: PlanModel, gaps: readonly number[]): boolean | undefined {
  const used = new Set<number>()
  let tries = 0
  const mend = (at: number): boolean | undefined => {
    if (at === gaps.length) return true
    for (const option of model.gaps[gaps[at]!]!.options) {
      const { uses } = model.options[option]!
      if (uses.some((each) => used.has(each))) continue
      if ((tries += 1) > MOST_TRIES) return undefined
      for (const each of uses) used.add(each)
      const isDone = mend(at + 1)
      if (isDone !== false) return isDone
      for (const each of uses) used.delete(each)
    }
    return false
  }
  return mend(0)
}
