// The demonstration's forecast, as every format of it is made from; it must never leave anything out.
import { assessNow } from '../../../src/domain/assess.ts'
import { arrange } from '../../../src/domain/board.ts'
import type { Prices } from '../../../src/domain/forecast/budget.ts'
import { forecast } from '../../../src/domain/forecast/deadlines.ts'
import type { Grouping } from '../../../src/domain/forecast/groups.ts'
import { policyOf } from '../../../src/domain/policy/in-force.ts'
import { reportOf, type ForecastReport } from '../../../src/exports/forecast/forecast-shape.ts'
import { usual } from '../../demo-station.ts'

export function reported(days = 365, by: Grouping = 'month', prices?: Prices): ForecastReport {
  const { state, at } = usual()
  const { name, timeZone } = state.station!
  return reportOf(
    forecast(state, policyOf(state), at, days),
    { name, timeZone, invented: true },
    arrange(assessNow(state, at), state).policy,
    by,
    prices,
  )
}
