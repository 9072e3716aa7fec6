// What takes the last act back: the opposite command, or a correction of the record; it must never hide that the act was done.
import { SETUP, type Command, type Dated, type Unsigned } from './commands.ts'
import { decide } from './decide.ts'
import { recordsOf } from './decide/amend.ts'
import { nameAmong } from './decide/amend-meant.ts'
import type { Event, EventOf } from './events.ts'
import type { Id } from './gear.ts'
import { assigned, holderOf, place, type State } from './state.ts'
import type { Instant } from './time.ts'

/** The commands that take an act back, or why none does and what to do instead. */
export type Undoing = { commands: Unsigned[] } | { instead: string }

export const TAGGED_BY_MISTAKE = 'tagged by mistake'
export const RECORDED_BY_MISTAKE = 'recorded by mistake'

/** What takes these events of one act back, the newest first; whether it may be done now is for `decide`. */
export function undoOf(act: readonly Event[], state: State, at: Instant): Undoing {
  const commands: Unsigned[] = []
  for (const event of act) {
    const undoing = undoOne(event, state, at)
    if ('instead' in undoing) return undoing
    commands.push(...undoing.commands)
  }
  return commands.length ? { commands } : { instead: 'Nothing has been recorded yet.' }
}

const does = (...commands: Unsigned[]): Undoing => ({ commands })
const instead = (words: string): Undoing => ({ instead: words })
const withdraw = (seq: number, subject?: Id): Undoing =>
  does({ do: 'amend', seq, why: RECORDED_BY_MISTAKE, with: { ...(subject && { subject }), withdrawn: true } })

/** A new event stands here before it compiles: with its opposite, or with what to do instead. */
function undoOne(event: Event, state: State, at: Instant): Undoing {
  const { seq } = event
  switch (event.type) {
    case 'station-made':
    case 'rig-added':
    case 'key-made':
    case 'journal-recovered':
      return instead('That belongs to the station itself and is not taken back.')
    case 'member-added':
    case 'element-added':
    case 'gear-imported':
    case 'records-imported':
      return instead(
        'That says who or what there is. A wrong label is corrected in the log (l, then c); an element that is not there is retired with z.',
      )
    case 'element-issued':
      return does({ do: 'return-to-rack', element: event.data.element })
    case 'element-returned':
      return instead(`Whose it was is in its history. Issue ${event.data.element} again with i.`)
    case 'tour-opened':
      return instead('A tour that was opened is closed by handing it over: h. Then o opens the right one.')
    case 'tour-handed-over':
      return instead('A tour that was handed over stays closed. Open a new one with o.')
    case 'member-seated':
      return undoSeating(event, state)
    case 'seat-cleared':
      return does({ do: 'seat-member', seat: event.data.seat, member: event.data.member })
    case 'seat-answered':
      return undoAnswer(event, state)
    case 'pressure-read':
    case 'exposure-recorded':
    case 'care-recorded':
    case 'fit-test-recorded':
    case 'note-made':
      return withdraw(seq)
    case 'element-tagged':
      return untag(seq, event.data.element, state)
    case 'tag-lifted': {
      const { element, reasons } = event.data
      // The lifting does not repeat what the tags were a matter of; safety is the safe reading.
      return does(
        ...reasons.map((reason): Unsigned => ({ do: 'tag', element, reason, matter: 'safety' as const })),
      )
    }
    case 'element-swapped':
      return undoSwap(event, state, at)
    case 'swap-reversed':
      return does({ do: 'swap', seat: event.data.seat, out: event.data.in, in: event.data.out })
    case 'elements-sent-away':
      return undoLeaving(event, event.data.elements, state)
    case 'elements-received-back':
      return instead('Where it came from is in its history. Send it away again with w, or hold it with d.')
    case 'batch-received':
      return instead('Withdraw its cares in the log (l, then -) and send the gear away again with w.')
    case 'element-held':
      return undoLeaving(event, [event.data.element], state)
    case 'element-retired':
      return instead('What is retired stays retired. If it is in use after all, add it under a new id.')
    case 'event-amended':
      return unamend(event, state)
    case 'item-acknowledged':
      return instead('What was read was read. The item stays open until it is settled.')
    case 'pin-set':
    case 'pin-cleared':
    case 'pin-refused':
      return instead(
        'A PIN is changed by setting another one, and a forgotten one is cleared by somebody else.',
      )
    case 'policy-adopted':
      return instead('Another policy is put in force on the command line: bayboard policy adopt.')
  }
}

/** It never left; but what came back since, or was held since, is where a later act put it. */
function undoLeaving({ seq }: Event, ids: Id[], state: State): Undoing {
  const isStillThere = (id: Id): boolean => {
    const custody = state.elements.get(id)?.custody
    return custody !== undefined && 'since' in custody && custody.since.seq === seq
  }
  const moved = ids.find((id) => !isStillThere(id))
  return moved === undefined
    ? does({ do: 'receive-back', elements: ids, byMistake: true })
    : instead(`${moved} is not where that put it any more. Look it up with / and go on from there.`)
}

/** Whoever was relieved sits there again, if they sit nowhere else by now. */
function undoSeating({ data: { seat, relieves } }: EventOf<'member-seated'>, state: State): Undoing {
  return relieves !== undefined && state.members.get(relieves)?.seat === null
    ? does({ do: 'seat-member', seat, member: relieves })
    : does({ do: 'clear-seat', seat })
}

/** An answer without a finding is withdrawn; one with findings loses what it tagged, and the position has answered all the same. */
function undoAnswer({ seq, data: { seat, findings } }: EventOf<'seat-answered'>, state: State): Undoing {
  if (!findings.length) {
    return state.tour?.answers.get(seat)?.seq === seq
      ? withdraw(seq)
      : instead(`That answer of ${seat} no longer stands: it changed hands or was called again.`)
  }
  const untagged = [...new Set(findings.map((each) => each.element))].map((id) => untag(seq, id, state))
  return (
    untagged.find((each) => 'instead' in each) ??
    does(...untagged.flatMap((each) => ('commands' in each ? each.commands : [])))
  )
}

/** Its own tags go by a lifting with its basis; where others hang there too, only its own is withdrawn. */
function untag(seq: number, id: Id, state: State): Undoing {
  const tags = state.elements.get(id)?.tags ?? []
  const own = tags.filter((each) => each.seq === seq)
  if (!own.length) return instead(`The tag on ${id} has been lifted already.`)
  if (own.length === tags.length)
    return does({ do: 'lift-tag', element: id, basis: TAGGED_BY_MISTAKE, tags: tags.map((each) => each.seq) })
  return own.length === 1
    ? withdraw(seq, id)
    : instead(`${id} has several tags. Lift those that are wrong with u.`)
}

/** The element that was there comes back; where it may not be worn itself, the spare just leaves and the place is as before. */
function undoSwap(
  { data: { seat: id, kind, holder, in: spare, out } }: EventOf<'element-swapped'>,
  state: State,
  at: Instant,
): Undoing {
  const seat = state.seats.get(id)
  const standIn = state.standIns.get(place(holder, kind))
  if (!seat || holderOf(seat, kind) !== holder || assigned(state, holder, kind)?.id !== spare)
    return instead(`${spare} is not at ${id} any more. Look it up with / and go on from there.`)
  const isOwnBack = out === undefined || standIn?.own === out
  const back: Unsigned = isOwnBack
    ? { do: 'swap-back', seat: id, kind }
    : { do: 'swap', seat: id, out: spare, in: out }
  if (mayBe(back, state, at) || state.elements.get(spare)?.issuedTo !== null) return does(back)
  return does({ do: 'return-to-rack', element: spare })
}

function mayBe(command: Unsigned, state: State, at: Instant): boolean {
  const by = state.members.keys().next().value ?? SETUP
  return 'draft' in decide({ ...(command as Command), by, at } as Dated, state)
}

/** A value goes back to what it was; what was withdrawn, or said nothing before, has to be recorded anew. */
function unamend({ data }: EventOf<'event-amended'>, state: State): Undoing {
  const { seq, subject, was, with: now } = data
  const before = Object.fromEntries(Object.keys(now).map((key) => [key, was[key] ?? null]))
  if (now['withdrawn'] || Object.values(before).some((each) => each === null))
    return instead(`A correction stays as it is. If event ${seq} was right after all, record it anew.`)
  // It goes by what it says now: the care or the day may be what was corrected.
  const records = recordsOf(state, seq)
  const amended = records.find(
    ({ type, subject: whose, said }) =>
      type === data.type &&
      whose === subject &&
      (['care', 'on'] as const).every((name) => !data[name] || said[name] === (now[name] ?? data[name])),
  )
  const of = amended && nameAmong(amended, records)
  return does({
    do: 'amend',
    seq,
    why: RECORDED_BY_MISTAKE,
    with: { ...(subject && { subject }), ...(of && { of }), ...before },
  })
}
