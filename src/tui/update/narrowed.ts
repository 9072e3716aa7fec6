// What typed letters leave of a list, and when they were the officer's own words; it must never choose.
import { cleanText } from '../../domain/clean.ts'
import type { Option, Step } from '../actions/action.ts'
import { OTHER } from '../actions/ask.ts'
import { keepLast } from '../keep-last.ts'

type Choice = Extract<Step, { ask: 'choose' }>

/** Nobody types the dashes of an id. */
export const bare = (text: string): string => text.toLowerCase().replaceAll(/[^\p{L}\p{N}]/gu, '')

/** Each text of an option as typed letters are looked for in it, made when it is first looked in. */
class Sought {
  readonly name: string
  readonly #option: Option
  #said: string | undefined
  #words: string | undefined

  constructor(option: Option) {
    this.name = bare(`${option.value} ${option.label}`)
    this.#option = option
  }

  get said(): string {
    const { label, sought, note } = this.#option
    return (this.#said ??= bare(`${label} ${sought ?? note ?? ''}`))
  }

  /** Each word of its name after a space; the parts of `Y-401` are words too. */
  get words(): string {
    if (this.#words === undefined) {
      const name = `${this.#option.value} ${this.#option.label}`.toLowerCase()
      const [whole, parts] = [/[^\p{L}\p{N}\s]/gu, /[^\p{L}\p{N}]/gu]
      this.#words = ` ${name.replaceAll(whole, '')} ${name.replaceAll(parts, ' ')}`
    }
    return this.#words
  }
}
const known = new WeakMap<Option, Sought>()

function soughtIn(option: Option): Sought {
  let sought = known.get(option)
  if (!sought) known.set(option, (sought = new Sought(option)))
  return sought
}

/** Does a text hold the words typed: as one piece, or every word of them in any order? */
const holding = (text: string): ((all: string) => boolean) => {
  const [wanted, words] = [bare(text), text.split(' ').map(bare)]
  return (all) => all.includes(wanted) || words.every((word) => all.includes(word))
}

const keptList = keepLast<Option[]>()

/** The options that the typed letters leave, those with a word that begins so before the others, otherwise in their order; what is only said of an option counts where no name matches. */
export const narrowed = (step: Choice, text: string): Option[] =>
  bare(text) ? keptList([step, text], () => narrow(step, text)) : step.options

function narrow(step: Choice, text: string): Option[] {
  const wanted = bare(text)
  const holds = holding(text)
  const words = text.split(' ').map((word) => ` ${bare(word)}`)
  const named = step.options.filter((each) => holds(soughtIn(each).name))
  // What was typed whole comes first: C-1 before C-10. Then Helmet before Coat shell, where `hel` was typed.
  const placed: [Option[], Option[], Option[]] = [[], [], []]
  for (const each of named) {
    const begins = words.every((word) => soughtIn(each).words.includes(word))
    placed[bare(each.value) === wanted ? 0 : begins ? 1 : 2].push(each)
  }
  if (named.length) return placed.flat()
  return step.options.filter((each) => holds(soughtIn(each).said) || isOwnWords(step, each))
}

/** What no row names can still be said in one's own words. */
const isOwnWords = ({ name }: Choice, { value }: Option): boolean => name === 'point' && value === OTHER

/** Letters that named no row were the words themselves: they are not typed again. */
export const ownWords = (step: Choice, option: Option, text: string): string =>
  isOwnWords(step, option) && !holding(text)(soughtIn(option).name) ? cleanText(text) : ''
