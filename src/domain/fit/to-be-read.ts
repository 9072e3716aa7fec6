// Spares whose gauge nobody has read yet: a reading costs nothing, so it comes before a swap is given up or anything is bought.
import { judgeElement } from '../rules/judge.ts'
import { isFit } from '../rules/verdict.ts'
import type { Element } from '../state.ts'
import { byId, type Rack } from './rack.ts'

/** On the rack, by id: nothing speaks against them but that their pressure is not known. What it will be, nobody knows. */
export const toBeRead = ({ hanging, settings }: Rack): Element[] =>
  hanging('cylinder')
    .filter((each) => each.ratedPsi !== undefined && isOnlyUnread(each, settings))
    .toSorted(byId)

function isOnlyUnread(element: Element, settings: Rack['settings']): boolean {
  const [now] = settings
  const wrong = settings
    .flatMap((setting) => judgeElement(element, setting))
    .filter((each) => !isFit(each.state))
  const isReading = (id: string): boolean =>
    now!.policy.rules.some(({ rule }) => rule.id === id && 'reading' in rule.watch)
  return wrong.length > 0 && wrong.every(({ state, rule }) => state === 'unproven' && isReading(rule))
}
