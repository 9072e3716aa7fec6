// The board told in plain lines: what the station is, each riding position by its number, and the one in hand whole; it must never leave out a reason.
import type { ReasonLine, Row } from '../../domain/board.ts'
import { capital } from '../../domain/decide/decision.ts'
import { wordOf } from '../../domain/kinds.ts'
import { SIGNS } from '../../domain/signs.ts'
import { sayDate, clockOf, dateOf } from '../../domain/time.ts'
import { sayBack } from '../own-back.ts'
import { firstStep, keyLine, stoppedKeys } from '../panels/board.ts'
import { sayNames, sayReason } from '../say.ts'
import type { View } from '../view.ts'
import { inLines, type Spoken } from './choice.ts'

/** The head of every screen in three sentences. */
function headOf(view: View): string[] {
  const { at, stopped } = view
  const { station, tour, invented, headline, rollCall } = view.board
  const who = tour ? `tour ${tour.id}, officer ${tour.officerName}` : 'no tour is open'
  return [
    `${station}: ${who}. ${sayDate(dateOf(at))}, ${clockOf(at)}.${invented ? ' INVENTED DATA.' : ''}`,
    headline,
    rollCall.words,
    ...sayNext(view),
    ...(stopped ? [`NOTHING CAN BE RECORDED. ${stopped}`] : []),
  ]
}

export function spokenBoard(view: View): Spoken {
  const labels = view.board.rigs.flatMap((rig) =>
    rig.rows.map((row, at) => ({
      value: row.seat,
      label: sayRow(row),
      ...(at === 0 && { under: `${rig.name} ${rig.words}.` }),
    })),
  )
  const keys = view.stopped ? stoppedKeys(view) : keyLine(110, firstStep(view))
  return {
    lines: headOf(view),
    choices: labels,
    hint: `A number takes a riding position in hand. Keys: ${keys.replaceAll(/ {2}/g, ', ')}. An id, a serial or a name is looked up. Enter alone reads all again.`,
  }
}

function sayRow(row: Row): string {
  const where = `${row.position}${row.critical ? ', critical' : ''}`
  if (row.member === null) return `${where}: nobody.`
  const more = row.reasons.length > 1 ? ` ${row.reasons.length - 1} more.` : ''
  const why = row.sentence ? ` ${row.sentence}${more}` : ''
  const since = row.changed ? ', but gear has changed since' : ''
  const answered = row.answered ? `answered${since}` : 'not answered'
  return `${where}, ${row.name}: ${SIGNS[row.state].word}, ${answered}.${why}`
}

/** In a few words, where all of it was told before. */
export const sayBriefly = (view: View): string[] => [view.board.headline, ...sayInHand(view).slice(0, 1)]

/** What is told of the board after each act: who may not ride, what a key would put right, the riding position in hand. */
export function sayNow(view: View): string[] {
  const { headline } = view.board
  return [headline, ...sayNext(view), ...sayInHand(view)]
}

/** Gear to be called again, and one's own that is back. */
function sayNext(view: View): string[] {
  const { again } = view.board.rollCall
  return [again && `${again} r calls them again.`, sayBack(view)?.replace('on that row ', 'there ')].flatMap(
    (each) => (each ? inLines(each) : []),
  )
}

/** Every reason, the worst first; what is wrong with several elements alike is told once, with the name of each. */
function sayReasons(reasons: readonly ReasonLine[]): string[] {
  const alike = new Map<string, { reason: ReasonLine; names: string[] }>()
  for (const reason of reasons) {
    const name = `${capital(wordOf(reason.kind))} ${reason.element}`
    const said = sayReason({ ...reason, text: reason.text.replace(`${name}: `, `${ITS_NAME}: `) })
    const { names } = alike.get(said) ?? alike.set(said, { reason, names: [] }).get(said)!
    names.push(name)
  }
  return [...alike].map(([said, { reason, names }]) =>
    capital(names.length > 1 ? said.replace(ITS_NAME, names.join(', ')) : sayReason(reason)),
  )
}
const ITS_NAME = '\0'

/** All about the riding position in hand: every reason, then what is ready. */
function sayInHand({ row }: View): string[] {
  if (!row) return ['This station has no rig yet.']
  if (row.member === null) return [`In hand: ${row.seat} ${row.position}, nobody.`]
  const ready = row.places.filter((each) => each.state === 'ready' && each.element)
  const names = ready.map((each) => `${each.word} ${each.element}`)
  return [
    `In hand: ${row.seat} ${row.position}, ${row.name}, ${row.fit ? 'may ride' : 'may not ride'}.`,
    ...sayReasons(row.reasons),
    ...row.loosened.map((each) => `Only by a looser rule: ${each}`),
    ...(names.length ? [`Ready: ${sayNames(names, names.length)}.`] : []),
  ]
}
