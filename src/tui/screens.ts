// Chooses the screen; the only place that knows which there are. Under-size it says one plain sentence.
import { wrap } from '../exports/wrap.ts'
import { boardScreen } from './panels/board.ts'
import { coverageScreen } from './panels/coverage.ts'
import { deadlinesScreen } from './panels/deadlines.ts'
import { planScreen } from './panels/plan.ts'
import { isTooSmall, LEAST, type Size } from './panels/frame.ts'
import { logScreen } from './panels/log.ts'
import { cardScreen, helpScreen } from './panels/reading.ts'
import { rollCallScreen } from './panels/roll-call.ts'
import { sheetScreen } from './panels/sheet.ts'
import { plainLine, type Line } from './theme.ts'
import type { Screen, Ui } from './ui-state.ts'
import type { View } from './view.ts'

const SCREENS: Readonly<Record<Screen, (view: View, ui: Ui, size: Size) => Line[]>> = {
  board: boardScreen,
  'roll-call': rollCallScreen,
  sheet: sheetScreen,
  log: logScreen,
  card: cardScreen,
  deadlines: deadlinesScreen,
  plan: planScreen,
  coverage: coverageScreen,
  help: helpScreen,
}

/** What is on the glass and who is told when it changes. */
export interface Glass {
  read: () => { view: View; ui: Ui }
  watch: (changed: () => void) => () => void
}

export function linesFor(view: View, ui: Ui, size: Size): Line[] {
  if (isTooSmall(size)) {
    const said = `The board needs ${LEAST.columns}x${LEAST.rows}; this is ${size.columns}x${size.rows}: enlarge it, or Ctrl-C to leave.`
    return wrap(said, size.columns)
      .slice(0, Math.max(1, size.rows - 1))
      .map((line) => plainLine(line))
  }
  return SCREENS[ui.screen](view, ui, size)
}
