// What is taught of a kind of element: what it and each part is for, what to look at, what it cannot do; it must never judge.
import { capital } from '../domain/decide/decision.ts'
import { factsOf, LABEL_FIELDS, pointsOf, wordOf, type Kind, type Saying } from '../domain/kinds.ts'

const say = ({ says, source }: Saying): string => `  ${says}${source ? ` [${source}]` : ''}`

/** `a hood is`, `an air pack is`, `gloves are` */
const named = (word: string): string =>
  word.endsWith('s') ? `${word} are` : `${/^[aeiou]/.test(word) ? 'an' : 'a'} ${word} is`

/** Parts of a card, each with its heading. What names no source in brackets is common practice. */
export function taughtOf(kind: Kind): string[][] {
  const { for: use, parts, look, cannot } = factsOf(kind)
  return [
    [
      `What ${named(wordOf(kind))} for:`,
      `  ${use}`,
      ...parts.map((part) => `  ${capital(part.name)}: ${part.for}.`),
    ],
    [
      'What to look at:',
      ...look.map(say),
      `  It may show: ${pointsOf(kind).join('; ')}.`,
      `  Its label says: ${LABEL_FIELDS.join(', ')}.`,
    ],
    [
      'What it cannot do:',
      ...cannot.map(say),
      '  In brackets: where it is published. All else is common practice; your policy and the maker decide.',
    ],
  ]
}
