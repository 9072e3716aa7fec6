// Rules about what belongs together: what must be there, one assembly, the wearer's size.
import { sayAbsence } from '../decide/decision.ts'
import { factsOf, wordOf, type Kind } from '../kinds.ts'
import type { Rule } from '../policy/shape.ts'
import { compareSize, sayFit } from '../size.ts'
import { isHere, type Element } from '../state.ts'
import type { Judge, Make, Verdict, Wearer } from './verdict.ts'

/** Numbers of garment standards that look like years; none of them has an edition of that year. */
const STANDARDS = [1970, 1971, 1976]

/** The year of the standard's edition on a label: `1971-2018` and `NFPA 1971, 2018 edition` both give 2018. Of several it is the latest, which asks for the most. */
const editionYear = (edition: string | undefined): number | undefined => {
  const years = edition
    ?.match(/\b(?:19|20)\d{2}\b/g)
    ?.map(Number)
    .filter((year) => !STANDARDS.includes(year))
  return years?.length ? Math.max(...years) : undefined
}

/**
 * Is an element of this kind at the seat? `assigned` is the one on the books, here or not.
 * A coat labelled before the year in `whenEdition` may lawfully lack the part; one whose edition is unknown is unproven.
 */
export function judgePresence<T>(
  rule: Rule,
  kind: Kind,
  assigned: Element | undefined,
  wearer: Wearer,
  make: Make<T>,
): T | undefined {
  if (!('part' in rule.watch)) return undefined
  if (assigned && isHere(assigned)) return make(rule, assigned, 'ready', () => ({ says: 'present' }))
  const gap = (state: Verdict['state'], says: string): T =>
    make(rule, { id: assigned?.id ?? null, kind }, state, () => ({ says }))
  const away = assigned ? `missing, it is ${sayAbsence(assigned)}` : undefined
  const { part, whenEdition } = rule.watch
  if (part === 'always' || whenEdition === undefined) return gap(rule.past, away ?? 'missing')
  const whole = wearer.parts.get(part)
  // Its own place is empty all the same, whatever became of the layer it belongs to.
  if (!whole) return away ? gap(rule.past, away) : undefined
  const year = editionYear(whole.edition)
  const since = Number(whenEdition.slice(2))
  if (year === undefined) {
    const says = `missing, and the edition on ${wordOf(part)} ${whole.id} is not known`
    return gap('unproven', away ? `${away}, and the edition on ${whole.id} is not known` : says)
  }
  if (year < since) return gap('ready', `${wordOf(part)} ${whole.id} is labelled ${year} and may lack one`)
  return gap(rule.past, away ?? `missing, and ${wordOf(part)} ${whole.id} of ${year} needs one`)
}

/** Layers that must be one assembly and one size. Unknown is never a match. */
export const judgeMatch: Judge = (rule, element, _setting, wearer, make) => {
  if (!('matches' in rule.watch) || !wearer) return undefined
  const whole = wearer.parts.get(rule.watch.matches)
  if (!whole) return undefined
  const other = (): string => `${wordOf(whole.kind)} ${whole.id}`
  let unknown: (() => string) | undefined
  for (const what of rule.watch.by) {
    const [mine, theirs] = [element[what], whole[what]]
    if (mine === undefined || theirs === undefined) {
      // What is not known must not hide a mismatch that is.
      unknown ??= () =>
        `${mine === undefined ? 'its' : `${other()}'s`} ${what} is not known, so they cannot be shown to match`
      continue
    }
    const isSame = what === 'size' ? compareSize(mine, theirs, []) === 'exact' : mine === theirs
    if (!isSame) {
      const says = (): string => `${what} ${mine} does not match ${other()} of ${what} ${theirs}`
      return make(rule, element, rule.past, () => ({ says: says() }))
    }
  }
  const doubt = unknown
  if (doubt) return make(rule, element, 'unproven', () => ({ says: doubt() }))
  return make(rule, element, 'ready', () => ({ says: `one assembly with ${other()}` }))
}

/** Its size against the wearer's. */
export const judgeSize: Judge = (rule, element, _setting, wearer, make) => {
  const member = wearer?.member
  if (!('fits' in rule.watch) || !member) return undefined
  const measure = factsOf(element.kind).measure
  const wanted = measure && member.sizes?.[measure]
  const unproven = (says: string) => make(rule, element, 'unproven', () => ({ says }))
  if (!wanted) return unproven(`${member.name}'s size for it is not on record`)
  const { size } = element
  if (!size) return unproven('its size is not on record')
  const fit = compareSize(size, wanted, rule.watch.over)
  return make(rule, element, fit === 'wrong' ? rule.past : 'ready', () => ({
    says: `size ${size} ${sayFit(fit)} ${member.name}, who takes ${wanted}`,
  }))
}
