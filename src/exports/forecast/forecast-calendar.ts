// The forecast as entries of a calendar; a later one must move what it knows already and never double it.
import { sayHolder } from '../../domain/forecast/groups.ts'
import { plain } from '../../domain/kinds.ts'
import { sayDate } from '../../domain/time.ts'
import type { Calendar } from '../calendar.ts'
import { sayElement, type ForecastReport } from './forecast-shape.ts'

type Deadline = ForecastReport['ahead'][0]

/**
 * An entry is known by its element and rule, a fit test by its member: a care that is done moves the entry to its new day.
 * @param madeAt when the station was made: with its name it tells this station's entries from every other's
 * @param sequence how long the journal is, which never shrinks
 */
export function forecastCalendar(report: ForecastReport, madeAt: string, sequence: number): Calendar {
  const { station, mark, at, past, ahead } = report
  const house = `${slug(station.name)}.${madeAt.replaceAll(/\D/g, '').slice(0, 17)}`
  const entry = (deadline: Deadline, isPast: boolean) => ({
    uid: `${deadline.need === 'fit-test' ? deadline.holder : deadline.element}.${deadline.rule}@${house}`,
    on: deadline.on,
    summary: `${isPast ? 'Past: ' : ''}${sayNeed(deadline)} (${sayHolder(deadline)})`,
    description: [
      `${deadline.says}. Last good day: ${sayDate(deadline.lastGood)}.`,
      `Rule: ${plain(deadline.rule)} (${deadline.matter})${deadline.looser ? ', looser than the published base' : ''}.`,
      'Bayboard records and flags. It does not certify gear.',
      ...(mark === null ? [] : [mark]),
    ].join('\n'),
  })
  return {
    name: `Deadlines, ${station.name}`,
    at,
    sequence,
    entries: [...past.map((each) => entry(each, true)), ...ahead.map((each) => entry(each, false))],
  }
}

/** `Helmet H-9081: end of life`, `Coat shell C-1041: advanced cleaning` */
const sayNeed = (deadline: Deadline): string =>
  `${sayElement(deadline)}: ${deadline.need === 'replacement' ? 'end of life' : plain(deadline.need)}`

const slug = (text: string): string =>
  text
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '') || 'station'
