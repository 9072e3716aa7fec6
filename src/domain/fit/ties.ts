// Which kinds have to go with which others, by the rules in force; it must never judge an element.
import { familyOf, type Kind } from '../kinds.ts'
import type { Policy, Rule } from '../policy/shape.ts'

/** A kind that is judged by another one worn with it. */
export interface Tie {
  kind: Kind
  to: Kind
}

function lookedAt({ watch }: Rule): Kind | undefined {
  if ('matches' in watch) return watch.matches
  return 'part' in watch && watch.part !== 'always' && watch.whenEdition ? watch.part : undefined
}

export const tiesOf = ({ rules }: Pick<Policy, 'rules'>): Tie[] =>
  rules.flatMap(({ rule }) => {
    const to = lookedAt(rule)
    return to ? rule.kinds.map((kind) => ({ kind, to })) : []
  })

/** These kinds, and whatever else is judged by what is worn of them. */
export const touchedBy = (ties: readonly Tie[], kinds: readonly Kind[]): Kind[] => [
  ...new Set([...kinds, ...ties.flatMap(({ kind, to }) => (kinds.includes(to) ? kind : []))]),
]

/** The first tie between kinds that are not made as one assembly: only a department's own rule makes one. */
export const tieAcross = (ties: readonly Tie[]): Tie | undefined =>
  ties.find(({ kind, to }) => !familyOf(kind).includes(to))
