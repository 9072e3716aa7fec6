// Tells an event in one plain sentence, for the log, the history and the paper; it must never leave out what was said.
import { count } from './count.ts'
import { sayMember } from './decide/decision.ts'
import type { Event, EventData } from './events.ts'
import { COVER_WORDS, type Id } from './gear.ts'
import { plain, wordOf } from './kinds.ts'
import type { State } from './state.ts'
import { sayFields, sayImport } from './tell-import.ts'
import { sayDate } from './time.ts'

const list = (ids: readonly Id[]): string =>
  ids.length > 6 ? `${ids.slice(0, 5).join(', ')} and ${ids.length - 5} more` : ids.join(', ')

/** A public key is `name+id+key`; its id tells it apart. */
const sayKey = (key: string): string => key.split('+')[1] ?? key

/** Cares that say the same are told together; no element is left out, since each finds its care here. */
function sayBatch({ elements, cares }: EventData['batch-received']): string {
  const groups = new Map<string, Id[]>()
  for (const { element, care, on, result, who, note } of cares) {
    const words = `${plain(care)} on ${sayDate(on)}${who ? ` by ${who}` : ''}, ${result}${note ? ` (${note})` : ''}`
    groups.set(words, [...(groups.get(words) ?? []), element])
  }
  const without = elements.filter((id) => !cares.some((each) => each.element === id))
  if (without.length) groups.set('without a care', without)
  return [...groups].map(([words, ids]) => `${words}: ${ids.join(', ')}`).join('; ')
}

/** The event as a sentence; `state` lends names only. */
export function tell(event: Event, state: State): string {
  const { recordedAt } = event.data
  const late = recordedAt
    ? ` (recorded late, on ${sayDate(recordedAt.slice(0, 10))} at ${recordedAt.slice(11, 16)})`
    : ''
  const confirmed = 'byPin' in event.data && event.data.byPin ? ' Confirmed by PIN.' : ''
  const told = sentence(event, state)
  // Somebody's own words within it may end in a full stop already.
  const once = event.type === 'note-made' ? told : told.replace(/([.!?])\.$/, '$1')
  return `${once}${confirmed}${late}`
}

function sentence(event: Event, state: State): string {
  const element = (id: Id): string => {
    const known = state.elements.get(id)
    return known ? `${wordOf(known.kind)} ${id}` : id
  }
  const who = (id: Id): string => sayMember(state, id)
  const { type, data } = event
  switch (type) {
    case 'station-made':
      return `${data.name} made: ${data.timeZone}, rotation ${data.rotation}, tours start at ${data.starts}.`
    case 'rig-added':
      return `Rig ${data.rig.name} (${data.rig.id}) added with ${data.rig.seats.length} riding positions, minimum crew ${data.rig.minimum}.`
    case 'member-added':
      return `Member ${data.member.name} (${data.member.id}) added.`
    case 'element-added':
      return `Added ${wordOf(data.element.kind)} ${data.element.id}.`
    case 'gear-imported':
      return `Imported ${count(data.members.length, 'member')} and ${count(data.elements.length, 'element')} from ${data.file}.`
    case 'records-imported':
      return sayImport(data)
    case 'element-issued':
      return `Issued ${element(data.element)} to ${who(data.to)}${data.on === null ? '; since when is not known' : ` on ${sayDate(data.on)}`}.`
    case 'element-returned':
      return `Returned ${element(data.element)} to the rack.`
    case 'tour-opened': {
      const relieved = data.relieved.length
        ? ` Relieved: ${list(data.relieved.map((each) => who(each.member)))}.`
        : ''
      return `Opened tour ${data.tour}, platoon ${data.platoon}, officer ${who(data.officer)}.${relieved}`
    }
    case 'member-seated':
      return `Seated ${who(data.member)} at ${data.seat}${data.as ? `, ${COVER_WORDS[data.as]}` : ''}${data.relieves ? `, relieving ${who(data.relieves)}` : ''}.`
    case 'seat-cleared':
      return `Cleared ${data.seat}: ${who(data.member)} left it.`
    case 'seat-answered': {
      const found = data.findings
        .map((each) => `${element(each.element)}: ${each.point} (${each.matter})`)
        .join('; ')
      return `${data.seat} answered by ${who(data.member)}: ${found || 'no findings'}.`
    }
    case 'pressure-read':
      return `Read ${data.psi} psi on ${element(data.element)}${data.celsius === undefined ? '' : ` at ${data.celsius} C`}.`
    case 'element-tagged':
      return `Tagged ${element(data.element)} out of service: ${data.reason} (${data.matter}).`
    case 'tag-lifted':
      return `Lifted the tag on ${element(data.element)} (${data.reasons.join('; ')}): ${data.basis}.`
    case 'element-swapped': {
      const out = data.out ? `, ${data.out} out` : ''
      return `Swapped ${element(data.in)} in at ${data.seat}${out}${data.reason ? `: ${data.reason}` : ''}.`
    }
    case 'swap-reversed':
      return `Swapped back ${element(data.in)} at ${data.seat}, ${data.out} out.`
    case 'exposure-recorded': {
      const at = data.incident ? ` at ${data.incident}` : ''
      const whose = data.seats.length ? ` at ${list(data.seats)}` : ''
      return `Exposure to ${plain(data.exposure)}${at}${whose}: ${list(data.elements)}.`
    }
    case 'care-recorded': {
      const by = data.who ? ` by ${data.who}` : ''
      const note = data.note ? `: ${data.note}` : ''
      return `${plain(data.care)} of ${element(data.element)} on ${sayDate(data.on)}${by}, ${data.result}${note}.`.replace(
        /^./,
        (first) => first.toUpperCase(),
      )
    }
    case 'fit-test-recorded': {
      const mask = `${data.facepiece.model} ${data.facepiece.size}`
      return `Fit test of ${who(data.member)} with ${mask} on ${sayDate(data.on)}: ${data.result}.`
    }
    case 'elements-sent-away':
      return `Sent to ${data.to} for ${plain(data.for)}: ${list(data.elements)}.`
    case 'elements-received-back':
      return `${data.byMistake ? 'Put back, sent or held by mistake' : 'Received back'}: ${list(data.elements)}.`
    case 'batch-received': {
      const from = data.file === undefined ? '' : ` by the slip ${data.file}`
      return `Received back${from}: ${sayBatch(data)}.`
    }
    case 'element-held':
      return `Held ${element(data.element)} as evidence: ${data.reason}.`
    case 'element-retired':
      return `Retired ${element(data.element)}: ${data.reason}. Disposal: ${data.disposal}.`
    case 'note-made':
      return `Note: ${data.text}`
    case 'event-amended': {
      const care = data.care === undefined ? '' : `, ${plain(data.care)}`
      const subject = data.subject ? ` (${data.subject}${care})` : ''
      if (data.with.withdrawn) return `Withdrew event ${data.seq}${subject}: ${data.why}.`
      return `Amended event ${data.seq}${subject}: ${sayFields(data.with, data.was)}. ${data.why}.`
    }
    case 'item-acknowledged':
      return `Acknowledged: ${data.words}`
    case 'tour-handed-over':
      return `Handed over tour ${data.tour} from ${who(data.from)} to ${who(data.to)}${
        data.readBack ? `, who read back what is open${data.readBackByPin ? ' and gave their PIN' : ''}` : ''
      }.${event.by === data.from ? '' : ` Signed off by ${who(event.by)}.`}${
        data.sealKey ? ` The key ${sayKey(data.sealKey)} for the seals was made.` : ''
      }`
    case 'pin-set':
      return `${who(data.member)} set a PIN${data.witness ? `, and ${who(data.witness)} gave theirs for it` : ''}.`
    case 'pin-cleared':
      return `Cleared the PIN of ${who(data.member)}: ${data.why}.`
    case 'pin-refused':
      return `A wrong PIN was given for ${who(data.member)}, asked for by ${plain(data.for)}; try ${data.tries}.`
    case 'key-made': {
      const vouched = data.vouched ? 'which vouches for it' : 'which does not vouch for it'
      const replaced = data.replaces ? ` in place of ${sayKey(data.replaces)}, ${vouched}` : ''
      return `Made the key ${sayKey(data.key)} for the seals${replaced}${data.why ? `: ${data.why}` : ''}.`
    }
    case 'policy-adopted':
      return `Adopted the policy overlay "${data.overlay.name}".`
    case 'journal-recovered':
      return `An unfinished last line of ${count(data.bytes, 'byte')} was set aside in ${data.file}.`
  }
}
