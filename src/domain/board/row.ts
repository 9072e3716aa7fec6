// One riding position in the words that glass, paper, CSV and JSON all show; it judges nothing itself.
import type { SeatAssessment } from '../assess.ts'
import type { PlaceAssessment } from '../assess/place.ts'
import type { PlaceLine, ReasonLine, Row } from '../board.ts'
import { plain, wordOf } from '../kinds.ts'
import type { Policy } from '../policy/shape.ts'
import { isLooser, sayVerdict, type Verdict } from '../rules/verdict.ts'
import type { Element, State } from '../state.ts'

const reasonLine = (policy: Policy, verdict: Verdict): ReasonLine => {
  const { element, kind, state, matter, rule, on } = verdict
  const looser = isLooser(policy, rule)
  return { element, kind, state, matter, rule, text: sayVerdict(verdict), on, looser }
}

const sayLabel = (element: Element | undefined): string =>
  element
    ? [
        element.size,
        element.ratedPsi && `rated ${element.ratedPsi} psi`,
        element.made && `made ${element.made}`,
      ]
        .filter(Boolean)
        .join(', ')
    : ''

function placeLine(place: PlaceAssessment): PlaceLine {
  const { kind, element, standsIn, state } = place
  const verdicts = element && place.isPlain ? [] : place.verdicts
  const [worst] = verdicts
  const better = verdicts.find((each) => each.loosened)
  const text =
    worst && (worst.state !== 'ready' || !element)
      ? worst.says
      : better
        ? `by a looser rule; the published base says ${plain(better.loosened!)}`
        : ''
  return {
    kind,
    word: wordOf(kind),
    element: element?.id ?? null,
    label: sayLabel(element),
    standsIn,
    state,
    text,
  }
}

/** A drag rescue device that the coat's edition does not ask for is not a gap. */
const isShown = (place: PlaceAssessment): boolean =>
  place.element !== undefined ||
  place.state !== 'ready' ||
  place.verdicts.some((each) => each.says !== 'present')

/** A looser rule is never silent: what the published base would say stands beside the verdict. */
const loosenedAt = (seat: SeatAssessment): string[] =>
  seat.places.flatMap((each) =>
    (each.isPlain ? [] : each.verdicts).flatMap((one) =>
      one.loosened
        ? [`${sayVerdict(one).slice(0, -1)}; under the published base it would be ${plain(one.loosened)}.`]
        : [],
    ),
  )

/** What is read of a riding position; its words are put together for those who read them, once. */
export function rowOf(policy: Policy, state: State, judged: SeatAssessment): Row {
  const { seat, fit, answered, changed } = judged
  const member = seat.member === null ? undefined : state.members.get(seat.member)
  let words: Pick<Row, 'sentence' | 'reasons' | 'loosened' | 'places'> | undefined
  const inWords = () => (words ??= wordsOf(policy, judged))
  return {
    seat: seat.id,
    position: seat.position,
    critical: seat.critical,
    member: seat.member,
    name: member?.name ?? '',
    state: judged.state,
    fit,
    answered,
    changed,
    get sentence() {
      return inWords().sentence
    },
    get reasons() {
      return inWords().reasons
    },
    get loosened() {
      return inWords().loosened
    },
    get places() {
      return inWords().places
    },
  }
}

function wordsOf(policy: Policy, judged: SeatAssessment) {
  const reasons = judged.reasons.map((each) => reasonLine(policy, each))
  return {
    sentence: judged.state === 'unfilled' ? 'Nobody rides here.' : (reasons[0]?.text ?? ''),
    reasons,
    loosened: loosenedAt(judged),
    places: judged.places.filter(isShown).map(placeLine),
  }
}
