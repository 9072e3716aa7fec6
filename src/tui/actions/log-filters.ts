// Choosing which records the log shows: those of one tour, riding position, element or member; it records nothing.
import { capital, nameOf } from '../../domain/decide/decision.ts'
import type { LogFilter } from '../../domain/log-filter.ts'
import type { State } from '../../domain/state.ts'
import { sayDate } from '../../domain/time.ts'
import type { Action, Option } from './action.ts'

const filter = (
  by: LogFilter['by'],
  key: string,
  what: string,
  optionsOf: (state: State) => Option[],
): Action => ({
  id: `only-${by}`,
  isOfStation: true,
  recordsNothing: true,
  key,
  label: `only one ${what}`,
  help: `Show only what is about one ${what}. Esc shows all again.`,
  next({ state }, answers) {
    if (answers['id'] !== undefined) return { ask: 'done', deed: { log: { by, id: answers['id'] } } }
    const title = `Show the log of which ${what}? Type part of it`
    return { ask: 'choose', name: 'id', title, options: optionsOf(state) }
  },
})

export const onlyTour = filter('tour', 't', 'tour', ({ tours }) =>
  [...tours]
    .map(([id, { platoon, on }]) => ({ value: id, label: id, note: `platoon ${platoon}, ${sayDate(on)}` }))
    .toReversed(),
)

export const onlySeat = filter('seat', 's', 'riding position', ({ seats, rigs }) =>
  [...seats.values()].map((seat) => ({
    value: seat.id,
    label: seat.id,
    note: `${seat.position} of ${rigs.get(seat.rig)?.name ?? seat.rig}`,
  })),
)

export const onlyElement = filter('element', 'e', 'element', ({ elements }) =>
  [...elements.values()].map((each) => ({
    value: each.id,
    label: capital(nameOf(each)),
    note: [each.size, each.serial, each.issuedTo ?? each.custody.where].filter(Boolean).join(', '),
  })),
)

export const onlyMember = filter('member', 'm', 'member', ({ members }) =>
  [...members.values()].map((each) => ({
    value: each.id,
    label: `${each.name} (${each.id})`,
    note: [each.rank, each.platoon && `platoon ${each.platoon}`].filter(Boolean).join(', '),
  })),
)
