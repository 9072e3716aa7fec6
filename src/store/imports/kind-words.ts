// The words departments write for the kinds of element, and reading them; a word that could be two kinds must never be taken for one.
import { KINDS, wordOf, type Kind } from '../../domain/kinds.ts'
import { listed } from './columns.ts'
import { show } from './fault.ts'

/** Order, case, punctuation and plurals do not count. */
const KIND_WORDS: Readonly<Record<Kind, readonly string[]>> = {
  'coat-shell': listed(
    'coat shell, coat outer shell, coat outer, outer coat, coat, jacket, jacket shell',
    'jacket outer shell, jacket outer, outer jacket',
  ),
  'coat-liner': listed(
    'coat liner, coat thermal liner, coat inner liner, coat inner, jacket liner',
    'jacket thermal liner, jacket inner liner, jacket inner',
  ),
  'drag-rescue-device': [
    'drag rescue device',
    'drd',
    'drag device',
    'drag strap',
    'rescue strap',
    'coat drd',
  ],
  'trouser-shell': listed(
    'trouser shell, trouser outer shell, trouser outer, trousers, pants, pant shell',
    'pant outer shell, pant outer, outer trousers, outer pants',
  ),
  'trouser-liner': listed(
    'trouser liner, trouser thermal liner, trouser inner liner, trouser inner, pant liner',
    'pant thermal liner, pant inner liner, pant inner',
  ),
  helmet: ['helmet', 'head protection'],
  hood: [
    'hood',
    'protective hood',
    'particulate hood',
    'particulate blocking hood',
    'barrier hood',
    'flash hood',
  ],
  gloves: ['gloves', 'leather gloves'],
  boots: ['boots', 'leather boots', 'rubber boots', 'footwear'],
  facepiece: [
    'facepiece',
    'face piece',
    'mask',
    'face mask',
    'scba mask',
    'scba facepiece',
    'scba face piece',
  ],
  'air-pack': listed(
    'air pack, airpack, scba, scba pack, scba unit, scba air pack, breathing apparatus',
    'self contained breathing apparatus, pack',
  ),
  cylinder: listed(
    'cylinder, bottle, tank, air cylinder, air bottle, air tank, scba cylinder',
    'scba bottle, scba tank',
  ),
}

/** Words that tell no kind from another. "Wildland" or "extrication" do: such gear is another matter. */
const FILLERS = [
  'structural',
  'firefighting',
  'firefighter',
  'fire',
  'turnout',
  'bunker',
  'pair',
  'of',
  'pr',
  'the',
]

const EITHER_LINER = 'it may be the coat liner or the trouser liner'
const EITHER_SHELL = 'it may be the coat shell or the trouser shell'
const A_SET = 'it is more than one element, and each needs a row of its own'
const AMBIGUOUS: Readonly<Record<string, string>> = {
  liner: EITHER_LINER,
  'thermal liner': EITHER_LINER,
  'inner liner': EITHER_LINER,
  'moisture barrier': EITHER_LINER,
  'thermal barrier': EITHER_LINER,
  shell: EITHER_SHELL,
  'outer shell': EITHER_SHELL,
  gear: A_SET,
  'gear set': A_SET,
  set: A_SET,
  suit: A_SET,
  ensemble: A_SET,
  turnouts: A_SET,
  bunkers: A_SET,
  'coat and pants': A_SET,
  'coat pants': A_SET,
  'coat and trousers': A_SET,
  'jacket and pants': A_SET,
}

const singular = (word: string): string => (word.length > 3 ? word.replace(/s$/, '') : word)
const fillers = new Set(FILLERS)

/** `Thermal liner (coat)` is `coat liner thermal`. */
const keyOf = (text: string): string =>
  text
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '' && !fillers.has(word))
    .map(singular)
    .toSorted()
    .join(' ')

const kindByKey = new Map<string, Kind>(
  KINDS.flatMap((kind) =>
    [kind, wordOf(kind), ...KIND_WORDS[kind]].map((word): [string, Kind] => [keyOf(word), kind]),
  ),
)
const whyByKey = new Map(Object.entries(AMBIGUOUS).map(([word, why]) => [keyOf(word), why]))

/** A word for a whole garment is read as its shell; `note` says so. */
export function readKind(text: string, note: (says: string) => void): { value: Kind } | { says: string } {
  const key = keyOf(text)
  const kind = kindByKey.get(key)
  if (kind) {
    if (kind.endsWith('-shell') && !/\b(shell|outer)\b/.test(key)) {
      note(`${show(text)} was read as the ${wordOf(kind)}; its liner needs a row of its own.`)
    }
    return { value: kind }
  }
  const why = whyByKey.get(key)
  return {
    says: why
      ? `${show(text)} does not say which kind of element it is: ${why}.`
      : `${show(text)} is not a kind of element. The kinds are: ${KINDS.map(wordOf).join(', ')}.`,
  }
}
