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

/** The options that the typed letters leave, in their order; what is only said of an option counts where no name matches. */
export function narrowed(step: Choice, text: string): Option[] {
  const wanted = bare(text)
  if (!wanted) return step.options
  const named = step.options.filter((each) => holds(`${each.value} ${each.label}`, text))
  // What was typed whole comes first: C-1 before C-10.
  const exact = named.filter((each) => bare(each.value) === wanted)
  if (named.length) return [...exact, ...named.filter((each) => !exact.includes(each))]
  const said = step.options.filter((each) => holds(`${each.label} ${each.note ?? ''}`, text))
  return said.length ? said : step.options.filter((each) => isOwnWords(step, each))
}

/** What no row names can still be said in one's own words. */
const isOwnWords = ({ name }: Choice, { value }: Option): boolean => name === 'point' && value === OTHER

/** Letters that named no row were the words themselves: they are not typed again. */
export const ownWords = (step: Choice, option: Option, text: string): string =>
  isOwnWords(step, option) && !holds(`${option.value} ${option.label}`, text) ? cleanText(text) : ''
