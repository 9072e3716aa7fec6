// A readiness log as JSON that `readinessLogShape` describes; the same log always gives the same bytes.
import type { ReadinessLog } from './log-shape.ts'

export const asJson = (log: ReadinessLog): string => `${JSON.stringify(log, null, 2)}\n`
