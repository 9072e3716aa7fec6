// What typed letters leave of a list, and when they were the officer's own words; it must never choose.
import { cleanText } from '../../domain/clean.ts'
import type { Option, Step } from '../actions/action.ts'
import { OTHER } from '../actions/ask.ts'

type Choice = Extract<Step, { ask: 'choose' }>

/** Nobody types the dashes of an id. */
export const bare = (text: string): string => text.toLowerCase().replaceAll(/[^\p{L}\p{N}]/gu, '')

/** Does it hold the words typed: as one piece, or every word of them in any order? */
function holds(said: string, text: string): boolean {
  const all = bare(said)
  return all.includes(bare(text)) || text.split(' ').every((word) => all.includes(bare(word)))
}

/** Does a word of it begin with each of the words typed? The parts of `Y-401` are words too. */
function begins(said: string, text: string): boolean {
  const words = [said.split(/\s+/), said.split(/[^\p{L}\p{N}]+/u)].flat().map(bare)
  return text.split(' ').every((typed) => words.some((word) => word.startsWith(bare(typed))))
}

/** The options that the typed letters leave, those with a word that begins so before the others, otherwise in their order; what is only said of an option counts where no name matches. */
export function narrowed(step: Choice, text: string): Option[] {
  const wanted = bare(text)
  if (!wanted) return step.options
  const named = step.options.filter((each) => holds(`${each.value} ${each.label}`, text))
  // What was typed whole comes first: C-1 before C-10. Then Helmet before Coat shell, where `hel` was typed.
  const place = ({ value, label }: Option): number =>
    bare(value) === wanted ? 0 : begins(`${value} ${label}`, text) ? 1 : 2
  if (named.length) return named.toSorted((a, b) => place(a) - place(b))
  return step.options.filter(
    (each) => holds(`${each.label} ${each.sought ?? each.note ?? ''}`, text) || isOwnWords(step, each),
  )
}

/** What no row names can still be said in one's own words. */
const isOwnWords = ({ name }: Choice, { value }: Option): boolean => name === 'point' && value === OTHER

/** Letters that named no row were the words themselves: they are not typed again. */
export const ownWords = (step: Choice, option: Option, text: string): string =>
  isOwnWords(step, option) && !holds(`${option.value} ${option.label}`, text) ? cleanText(text) : ''
