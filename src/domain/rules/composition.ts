// Rules about what belongs together: what must be there, one assembly, the wearer's size.
import { sayAbsence } from '../decide/decision.ts'
import { factsOf, wordOf, type Kind } from '../kinds.ts'
import type { Rule } from '../policy/shape.ts'
import { compareSize, sayFit } from '../size.ts'
import { isHere, type Element } from '../state.ts'
import { verdict, type Judge, type Verdict, type Wearer } from './verdict.ts'

/** Numbers of garment standards that look like years; none of them has an edition of that year. */
const STANDARDS = [1970, 1971, 1976]

/** The year of the standard's edition on a label: `1971-2018` and `NFPA 1971, 2018 edition` both give 2018. */
export const editionYear = (edition: string | undefined): number | undefined => {
  const years = edition
    ?.match(/\b(?:19|20)\d{2}\b/g)
    ?.map(Number)
    .filter((year) => !STANDARDS.includes(year))
  return years?.at(-1)
}

/**
 * Is an element of this kind at the seat? `assigned` is the one on the books, here or not.
 * A coat labelled before the year in `whenEdition` may lawfully lack the part; one whose edition is unknown is unproven.
 */
export function judgePresence(
  rule: Rule,
  kind: Kind,
  assigned: Element | undefined,
  wearer: Wearer,
): Verdict | undefined {
  if (!('part' in rule.watch)) return undefined
  if (assigned && isHere(assigned)) return verdict(rule, assigned, 'ready', 'present')
  const gap = (state: Verdict['state'], says: string): Verdict =>
    verdict(rule, { id: assigned?.id ?? null, kind }, state, says)
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
export const judgeMatch: Judge = (rule, element, _setting, wearer) => {
  if (!('matches' in rule.watch) || !wearer) return undefined
  const whole = wearer.parts.get(rule.watch.matches)
  if (!whole) return undefined
  const other = `${wordOf(whole.kind)} ${whole.id}`
  let unknown: string | undefined
  for (const what of rule.watch.by) {
    const [mine, theirs] = [element[what], whole[what]]
    if (mine === undefined || theirs === undefined) {
      // What is not known must not hide a mismatch that is.
      unknown ??= `${mine === undefined ? 'its' : `${other}'s`} ${what} is not known, so they cannot be shown to match`
      continue
    }
    const isSame = what === 'size' ? compareSize(mine, theirs, []) === 'exact' : mine === theirs
    if (!isSame) {
      return verdict(rule, element, rule.past, `${what} ${mine} does not match ${other} of ${what} ${theirs}`)
    }
  }
  if (unknown !== undefined) return verdict(rule, element, 'unproven', unknown)
  return verdict(rule, element, 'ready', `one assembly with ${other}`)
}

/** Its size against the wearer's. */
export const judgeSize: Judge = (rule, element, _setting, wearer) => {
  if (!('fits' in rule.watch) || !wearer?.member) return undefined
  const measure = factsOf(element.kind).measure
  const wanted = measure && wearer.member.sizes?.[measure]
  if (!wanted)
    return verdict(rule, element, 'unproven', `${wearer.member.name}'s size for it is not on record`)
  if (!element.size) return verdict(rule, element, 'unproven', 'its size is not on record')
  const fit = compareSize(element.size, wanted, rule.watch.over)
  const says = `size ${element.size} ${sayFit(fit)} ${wearer.member.name}, who takes ${wanted}`
  return verdict(rule, element, fit === 'wrong' ? rule.past : 'ready', says)
}
