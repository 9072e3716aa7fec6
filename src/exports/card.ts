// What the books say of one element, member, riding position or rig as it stands now; it must never judge it.
import { cleanText } from '../domain/clean.ts'
import { capital, nameOf, sayAbsence, sayMember } from '../domain/decide/decision.ts'
import type { Id } from '../domain/gear.ts'
import { familyOf, KINDS } from '../domain/kinds.ts'
import { assigned, standInOf, type Element, type Member, type State } from '../domain/state.ts'
import { sayDate } from '../domain/time.ts'
import { sayWhen } from './said.ts'

/** What the books say of it now; empty for an id that is none of these. */
export function cardOf(id: Id, state: State): string[] {
  const element = state.elements.get(id)
  if (element) return elementCard(element, state)
  const member = state.members.get(id)
  if (member) return memberCard(member, state)
  const seat = state.seats.get(id)
  if (seat) {
    const rider = seat.member === null ? 'nobody' : sayMember(state, seat.member)
    return [
      cleanText(`Riding position ${id}: ${seat.position}`),
      row('Rig', seat.rig),
      row('Rides now', rider),
    ]
  }
  const rig = state.rigs.get(id)
  if (!rig) return []
  return [
    cleanText(`Rig ${id}: ${rig.name}`),
    row('Minimum', `crew of ${rig.minimum}`),
    row('Positions', rig.seats.join(', ')),
  ]
}

const row = (name: string, words: string): string => `  ${name.padEnd(12)}${cleanText(words)}`

function elementCard(element: Element, state: State): string[] {
  const { maker, model, serial, size, made, edition, assembly, inService, ratedPsi, construction } = element
  const label = [
    maker,
    model,
    serial && `serial ${serial}`,
    size && `size ${size}`,
    made ? `made ${made}` : 'month of manufacture not known',
    edition && `edition ${edition}`,
    assembly && `assembly ${assembly}`,
    inService && `in service since ${sayDate(inService)}`,
    ratedPsi && `rated ${ratedPsi} psi`,
    construction,
  ]
  const since = element.issuedOn === null ? '' : `, first issued ${sayDate(element.issuedOn)}`
  const holder = element.issuedTo === null ? 'nobody' : sayMember(state, element.issuedTo)
  const standIn = standInOf(state, element.id)
  const layers = layersOf(element, state)
  return [
    capital(nameOf(element)),
    row('Label', label.filter(Boolean).join(', ')),
    row('Custody', sayCustody(element)),
    row('Issued to', `${holder}${since}`),
    ...(layers.length ? [row('Worn with', layers.map(nameOf).join(', '))] : []),
    ...(standIn ? [row('Stands in', `at ${standIn.seat}, with ${sayMember(state, standIn.holder)}`)] : []),
    ...(element.tags.length ? [] : [row('Tags open', 'none')]),
    ...element.tags.map(({ reason, matter, at, by }) =>
      row('Tag open', `${reason} (${matter}), ${sayWhen(at)}, by ${sayMember(state, by)}`),
    ),
  ]
}

/** The other layers that are worn with it: those its holder has, or on the rack those of its assembly. */
function layersOf({ id, kind, issuedTo, assembly }: Element, state: State): Element[] {
  const holder = standInOf(state, id)?.holder ?? issuedTo
  return familyOf(kind).flatMap((layer) => {
    if (layer === kind) return []
    if (holder !== null) return assigned(state, holder, layer) ?? []
    return [...state.elements.values()].filter(
      (each) => each.kind === layer && assembly !== undefined && each.assembly === assembly,
    )
  })
}

export function sayCustody(element: Element): string {
  const { custody } = element
  if (!('since' in custody)) {
    return { rack: 'on the rack', issued: 'issued', rig: 'on the rig' }[custody.where]
  }
  const end = custody.where === 'retired' ? `; disposal: ${custody.disposal}` : ''
  return `${sayAbsence(element)}, since ${sayWhen(custody.since.at)}${end}`
}

function memberCard({ id, name, rank, platoon, sizes, seat, fitTests }: Member, state: State): string[] {
  const gear = KINDS.flatMap((kind) => assigned(state, id, kind) ?? [])
  const measures = Object.entries(sizes ?? {}).map(([measure, size]) => `${measure} ${size}`)
  const test = fitTests.at(-1)
  const mask = test && `${test.facepiece.model} ${test.facepiece.size} on ${sayDate(test.on)}: ${test.result}`
  return [
    cleanText(`${name} (${id})`),
    row('Rank', rank ?? 'not known'),
    row('Platoon', platoon ?? 'none'),
    row('Sizes', measures.join(', ') || 'not known'),
    row('Rides now', seat ?? 'nowhere'),
    row('Fit test', mask ?? 'none on record'),
    row('Gear', gear.map(nameOf).join(', ') || 'none'),
  ]
}
