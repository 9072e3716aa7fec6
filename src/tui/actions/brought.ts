// What a member detailed in has brought, read from the lines that were written; it must never presume a date or a size.
import type { Command } from '../../domain/commands.ts'
import type { ElementFacts, MemberFacts } from '../../domain/gear.ts'
import {
  factsOf,
  familyOf,
  isHeldBySeat,
  KINDS,
  MEASURES,
  type Kind,
  type Measure,
} from '../../domain/kinds.ts'
import { firstDay, isMonth } from '../../domain/time.ts'
import type { View } from '../view.ts'
import type { Answers } from './action.ts'

/** What a member has of their own; the air pack and the cylinder belong to the riding position. */
export const BROUGHT = KINDS.filter((kind) => !isHeldBySeat(kind))
/** The line that is written for a kind, under a name of its own. */
export const lineOf = (kind: Kind): string => `brought ${kind}`
export const written = (answers: Answers, kind: Kind): string | undefined => answers[lineOf(kind)]

/** `C-5001 44x32 2021-03 1971-2018`: the id, then in any order a size, the month it was made, the edition; else its model. */
export function readLine(kind: Kind, line: string): ElementFacts {
  const [id = '', ...words] = line.trim().split(/\s+/)
  const made = words.find(isMonth)
  const edition = words.find((each) => /^19\d\d-(19|20)\d\d$/.test(each))
  const [size, ...model] = words.filter((each) => each !== made && each !== edition)
  return {
    id,
    kind,
    ...(size !== undefined && { size }),
    ...(model.length > 0 && { model: model.join(' ') }),
    ...(made !== undefined && { made }),
    ...(edition !== undefined && { edition }),
  }
}

/** `coat 44x32, boots 11D` */
export function readSizes(line: string): MemberFacts['sizes'] | string {
  const sizes: Partial<Record<Measure, string>> = {}
  for (const part of line.split(',').map((each) => each.trim())) {
    if (!part) continue
    const [word = '', ...size] = part.split(/\s+/)
    const measure = MEASURES.find((each) => each === word.toLowerCase())
    if (!measure || !size.length) return `"${part}" is not a size. Write it as: coat 44x32, boots 11D.`
    sizes[measure] = size.join(' ')
  }
  return sizes
}

export const kindsIn = (answers: Answers): Kind[] =>
  BROUGHT.filter((kind) => written(answers, kind) !== undefined)

/** What is recorded: the member, what they brought as theirs, and what its own record says of it. */
export function detailed(
  view: View,
  answers: Answers,
): { member: MemberFacts; commands: Command[]; notes: string[] } {
  const by = view.speaker!
  const sizes = readSizes(answers['sizes']!) as NonNullable<MemberFacts['sizes']>
  const member: MemberFacts = {
    id: answers['id']!,
    name: answers['name']!,
    ...(Object.keys(sizes).length > 0 && { sizes }),
  }
  const elements = kindsIn(answers).map((kind) => elementOf(kind, answers))
  const commands: Command[] = [{ do: 'add-member', by, member }]
  const on = {
    'advanced-inspection': answers['inspected'],
    'advanced-cleaning': answers['cleaned'],
    'complete-liner-inspection': answers['liners'],
  } as const
  for (const element of elements) {
    commands.push({ do: 'add-element', by, element })
    commands.push({ do: 'issue', by, element: element.id, to: member.id, on: null })
    if (element.kind === 'facepiece') continue
    for (const care of ['advanced-inspection', 'advanced-cleaning', 'complete-liner-inspection'] as const) {
      if (!factsOf(element.kind).cares.includes(care)) continue
      const day = on[care]
      const isBefore = element.made && day && day < firstDay(element.made)
      if (!day || isBefore) continue
      const who = 'by its own station’s record'
      commands.push({ do: 'record-care', by, element: element.id, care, on: day, result: 'serviceable', who })
    }
  }
  const mask = elements.find((each) => each.kind === 'facepiece')
  if (answers['fitTest'] && mask?.model && mask.size) {
    const facepiece = { model: mask.model, size: mask.size }
    commands.push({
      do: 'record-fit-test',
      by,
      member: member.id,
      facepiece,
      on: answers['fitTest'],
      result: 'pass',
    })
  }
  const ids = elements.map((each) => each.id).join(', ')
  const notes = ids ? [`Theirs: ${ids}.`, 'Since when it is in use is not known.'] : []
  return { member, commands, notes }
}

function elementOf(kind: Kind, answers: Answers): ElementFacts {
  const element = readLine(kind, written(answers, kind)!)
  const [whole] = familyOf(kind)
  const shell = written(answers, whole!)
  const isLayer = familyOf(kind).length > 1 && answers['assembly'] === 'yes' && shell !== undefined
  return {
    ...element,
    ...(isLayer && { assembly: readLine(whole!, shell).id }),
  }
}
