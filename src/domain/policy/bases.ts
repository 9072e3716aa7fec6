// The published policies shipped with the program; one that has shipped is never edited, a correction gets a new id.
import base2014 from '../../../data/policies/nfpa-1851-2014.json' with { type: 'json' }
import base2020 from '../../../data/policies/nfpa-1851-2020.json' with { type: 'json' }
import provisional1850 from '../../../data/policies/nfpa-1850-provisional.json' with { type: 'json' }
import type { State } from '../state.ts'
import type { BasePolicy, Rule } from './shape.ts'

const whole = base2020 as unknown as BasePolicy

/** The rules of another edition in the places of those they replace. */
function editionOf(edition: Omit<BasePolicy, 'rules'> & { from: string; rules: unknown[] }): BasePolicy {
  const { from: _from, rules, ...facts } = edition
  const replaced = new Map((rules as Rule[]).map((rule) => [rule.id, rule]))
  return { ...facts, rules: whole.rules.map((rule) => replaced.get(rule.id) ?? rule) }
}

export const DEFAULT_BASE = whole.id
export const BASES: ReadonlyMap<string, BasePolicy> = new Map(
  [whole, editionOf(base2014), editionOf(provisional1850)].map((base) => [base.id, base]),
)

/** The base that a station has chosen; one this program does not know is judged by the default. */
export const baseOf = (state: State): BasePolicy =>
  BASES.get(state.station?.policy ?? DEFAULT_BASE) ?? BASES.get(DEFAULT_BASE)!
