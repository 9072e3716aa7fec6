// The plan on its way to the glass: begun by a key, begun again when the books move, given up by Esc. It records nothing.
import type { Plan } from '../domain/plan/plan.ts'
import type { State } from '../domain/state.ts'
import type { Ui } from './ui-state.ts'

/** Somebody works it out apart, so that the board stays alive. */
export interface Planning {
  answer: Promise<Plan>
  giveUp: () => void
}

/** What the board shows of it. */
export interface PlanShown {
  /** None while it is worked out, or when it could not be. */
  made: Plan | null
  fault: string | null
}
export const WORKING: PlanShown = { made: null, fault: null }

interface Around {
  begin: () => Planning
  state: () => State
  ui: () => Ui
  show: (ui: Ui) => void
}

/** Does the glass show the plan, or something that was started from it? */
const isOnPlan = ({ screen, from }: Ui): boolean =>
  screen === 'plan' || ((screen === 'sheet' || screen === 'card') && from === 'plan')

export function keepPlan({ begin, state, ui, show }: Around) {
  let under: Planning | undefined
  let stands: number | undefined
  let settled: Promise<void> | undefined

  function giveUp(): void {
    under?.giveUp()
    under = undefined
    stands = undefined
    settled = undefined
  }

  /** What cannot even be begun has failed: it must not take the board down. */
  function begun(): Planning {
    try {
      return begin()
    } catch (error) {
      return { answer: Promise.reject<Plan>(error), giveUp: () => undefined }
    }
  }

  function start(): void {
    giveUp()
    stands = state().seq
    const mine = begun()
    under = mine
    const settle = (plan: PlanShown): void => {
      // Whoever left does not wait for it any more.
      if (under !== mine) return
      under = undefined
      show({ ...ui(), plan })
    }
    settled = mine.answer.then(
      (made) => settle({ made, fault: null }),
      (error: unknown) =>
        settle({ made: null, fault: error instanceof Error ? error.message : String(error) }),
    )
  }

  return {
    /** Called whenever the glass is drawn anew: what is shown stands for the newest books, or is on its way. */
    keep(): void {
      if (!isOnPlan(ui())) return giveUp()
      if (stands === state().seq) return
      const isAgain = stands !== undefined
      start()
      const again = { text: 'The journal has moved: the plan is worked out again.', tone: 'warn' as const }
      show({ ...ui(), plan: WORKING, ...(isAgain && !ui().message && { message: again }) })
    },
    giveUp,
    /** Resolves once nothing is being worked out any more. */
    settled: async (): Promise<void> => await settled,
  }
}
