// Says when and by whom, in the same words on every export; it must never read a clock.
import type { Instant } from '../domain/time.ts'

/** `2026-11-24 07:02`, by the station's own clock. */
export const sayWhen = (at: Instant): string => `${at.slice(0, 10)} ${at.slice(11, 16)}`

/** `A. Varga (M-104)`, or the id alone where there is no name. */
export const sayBy = ({ by, byName }: { by?: string; byName?: string }): string =>
  byName ? `${byName} (${by})` : (by ?? '')
