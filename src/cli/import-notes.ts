// What an import says besides what it took: dates that stay as they were, and gear that cannot be shown to be in date for want of one. It must never change what is taken.
import { settingOf } from '../domain/assess.ts'
import { count } from '../domain/count.ts'
import type { ImportedElement } from '../domain/events.ts'
import type { Difference } from '../domain/import-diff.ts'
import { policyOf } from '../domain/policy/in-force.ts'
import { judgeElement } from '../domain/rules/judge.ts'
import { sayDate } from '../domain/time.ts'
import type { Session } from '../session.ts'
import { sayFault } from '../store/imports/fault.ts'
import type { Read } from '../store/imports/read-gear.ts'
import { MOST_SHOWN } from './import-faults.ts'

/** A day of issue that the file has and the books keep out is told, row by row. */
export function sayLaterIssues({ laterIssues }: Difference, { lineOf, headings }: Read): string[] {
  const column = headings.get('issued-on') ?? null
  const said = laterIssues.slice(0, MOST_SHOWN).map(({ id, on, first }) => {
    const says = `${id} was first issued on ${sayDate(first)}, and that stays: ${sayDate(on)} was not taken.`
    return sayFault({ line: lineOf.get(id)!, column, says })
  })
  const more = laterIssues.length - said.length
  const days = count(more, 'more later day of issue was', 'more later days of issue were')
  return more > 0 ? [...said, `${days} not taken.`] : said
}

/**
 * Gear in use since nobody knows when must not look as if its first year began with the import, or on the day a spare
 * is swapped in. What is too new to be past anything in either case is not told.
 */
export function sayUndated(elements: readonly ImportedElement[], session: Session): string[] {
  const { state } = session
  const policy = policyOf(state)
  const setting = settingOf(state, policy, session.now())
  const fromIssue = new Set(
    policy.rules.flatMap(({ rule: { id, watch } }) =>
      'orElse' in watch && watch.orElse === 'issued' ? id : [],
    ),
  )
  const isUndated = ({ id, issuedOn, inService }: ImportedElement): boolean =>
    issuedOn === undefined &&
    inService === undefined &&
    judgeElement({ ...state.elements.get(id)!, issuedBefore: true }, setting).some(
      (each) => each.state === 'unproven' && fromIssue.has(each.rule),
    )
  const undated = elements.filter(isUndated)
  const issued = undated.filter(({ issuedTo }) => issuedTo !== undefined).length
  const onTheRack = undated.length - issued
  return [...(issued ? [sayIssued(issued)] : []), ...(onTheRack ? [sayOnTheRack(onTheRack)] : [])]
}

function sayIssued(number: number): string {
  const words = count(number, 'issued element has', 'issued elements have')
  const need = number === 1 ? 'it needs' : 'they need'
  return `${words} neither an in-service nor an issue date: the cares ${need} are unproven until they are recorded or such a date is imported.`
}

function sayOnTheRack(number: number): string {
  const words = count(number, 'element on the rack has', 'elements on the rack have')
  const taken = number === 1 ? 'it counts' : 'they count'
  return `${words} no care on record and neither an in-service nor an issue date: ${taken} as never worn. Where that is not so, import the cares or such a date before anybody is given it.`
}
