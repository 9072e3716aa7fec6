// The fewest sets that together hold everything wanted: exact, by trying what the rarest thing still open allows.

export interface Cover {
  /** The sets taken, by their place, in order. */
  taken: number[]
  /** No smaller cover exists; false where there were too many ways to try them all. */
  isProven: boolean
}

const MOST_TRIES = 200_000

/** @param sets what each set holds; everything wanted has to be in at least one of them */
export function smallestCover(wanted: readonly number[], sets: readonly ReadonlySet<number>[]): Cover {
  let best = greedy(wanted, sets)
  let tries = 0
  const search = (open: readonly number[], taken: readonly number[]): void => {
    if (!open.length) {
      if (taken.length < best.length) best = [...taken]
      return
    }
    const most = Math.max(...sets.map((set) => countIn(open, set)))
    if (taken.length + Math.ceil(open.length / most) >= best.length) return
    if ((tries += 1) > MOST_TRIES) return
    const holders = (each: number): number[] => sets.flatMap((set, at) => (set.has(each) ? at : []))
    const rarest = open.map(holders).toSorted((a, b) => a.length - b.length)[0]!
    const byUse = rarest.toSorted((a, b) => countIn(open, sets[b]!) - countIn(open, sets[a]!) || a - b)
    for (const at of byUse) {
      search(
        open.filter((each) => !sets[at]!.has(each)),
        [...taken, at],
      )
    }
  }
  search(wanted, [])
  return { taken: best.toSorted((a, b) => a - b), isProven: tries <= MOST_TRIES }
}

const countIn = (open: readonly number[], set: ReadonlySet<number>): number =>
  open.filter((each) => set.has(each)).length

function greedy(wanted: readonly number[], sets: readonly ReadonlySet<number>[]): number[] {
  const taken: number[] = []
  let open = [...wanted]
  while (open.length) {
    const counts = sets.map((set) => countIn(open, set))
    const at = counts.indexOf(Math.max(...counts))
    taken.push(at)
    open = open.filter((each) => !sets[at]!.has(each))
  }
  return taken
}
