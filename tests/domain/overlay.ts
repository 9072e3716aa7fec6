// Makes overlays for the tests of the policy; it must never lay one on.
import type { Overlay, RuleChange } from '../../src/domain/policy/shape.ts'

export type Change = Omit<RuleChange, 'reason'>
export const reason = 'Our chief decided so.'
export const overlay = (...changes: Change[]): Overlay => ({
  name: 'Alder Hollow',
  changes: changes.map((change) => ({ ...change, reason })),
  add: [],
})
