// The kinds of element, as the catalogue under data/ describes them; it must never hold a rule or a limit.
import catalogue from '../../data/catalogue.json' with { type: 'json' }

/** In the order in which lists show them; roll-call.ts says in which they are called. */
export const KINDS = [
  'coat-shell',
  'coat-liner',
  'drag-rescue-device',
  'trouser-shell',
  'trouser-liner',
  'helmet',
  'hood',
  'gloves',
  'boots',
  'facepiece',
  'air-pack',
  'cylinder',
] as const
export type Kind = (typeof KINDS)[number]

export const CARES = [
  'routine-inspection',
  'advanced-inspection',
  'complete-liner-inspection',
  /** At the scene. It is not cleaning and never makes gear fit for reuse. */
  'preliminary-exposure-reduction',
  'routine-cleaning',
  'advanced-cleaning',
  'specialised-cleaning',
  'drying',
  'repair',
  'hydrostatic-test',
  'flow-test',
  'function-check',
] as const
export type Care = (typeof CARES)[number]

export const EXPOSURES = [
  'products-of-combustion',
  'body-fluids',
  'hazardous-material',
  'water',
  'other',
] as const
export type Exposure = (typeof EXPOSURES)[number]

/** The body measures a member is fitted by; each names the kinds that follow it in the catalogue. */
export const MEASURES = ['coat', 'trousers', 'helmet', 'hood', 'gloves', 'boots', 'facepiece'] as const
export type Measure = (typeof MEASURES)[number]

export const CONSTRUCTIONS = ['steel', 'aluminium', 'carbon', 'glass', 'aramid', 'hoop'] as const
export type Construction = (typeof CONSTRUCTIONS)[number]

/** Something taught of a kind. Without a source it is common practice of the trade. */
export interface Saying {
  says: string
  source?: string
}

interface KindFacts {
  /** The trade's word for it, lower case. */
  word: string
  /** One letter, the head of its column on the board. */
  mark: string
  /** Whose it is: most gear is a member's, the air pack and cylinder belong to the seat. */
  held: 'member' | 'seat'
  /** The member's measure it must fit, where there is one. */
  measure?: Measure
  /** What it does for its wearer, in one sentence. */
  for: string
  /** What it is made up of, as a routine inspection goes over it, and what each part is for. */
  parts: { name: string; for: string }[]
  /** How to look at it with one's own hands and eyes; `points` are what may be found. */
  look: Saying[]
  /** What it does not do, or only together with something else. */
  cannot: Saying[]
  /** How its sizes are written: read by pattern, since makers add to any list. None where one size is worn by all. */
  sizes?: { as: string; pattern: string }
  /** The cares that can be recorded for it. */
  cares: Care[]
  /** What a routine inspection looks at. Source: the 2008 routine inspection list as published by fire departments. */
  points: string[]
}

const kinds = catalogue.kinds as Record<Kind, KindFacts>

export const factsOf = (kind: Kind): KindFacts => kinds[kind]
export const wordOf = (kind: Kind): string => kinds[kind].word
/** What is looked at on every element, whatever its kind. */
export const EVERYWHERE: readonly string[] = catalogue.everywhere
export const pointsOf = (kind: Kind): string[] => [...kinds[kind].points, ...EVERYWHERE]
/** The same points in the words of whoever has never read the list; common practice. */
export const POINT_WORDS: Readonly<Record<string, string>> = catalogue.pointWords
export const isHeldBySeat = (kind: Kind): boolean => kinds[kind].held === 'seat'

/** What a label carries. Source: the published list of what each separable layer's label states. */
export const LABEL_FIELDS: readonly string[] = catalogue.label

/** `'advanced-cleaning'` reads `advanced cleaning`. */
export function plain(name: string): string {
  let words = plainWords.get(name)
  if (words === undefined) plainWords.set(name, (words = name.replaceAll('-', ' ')))
  return words
}
/** The names are few and fixed; judging a department asks for each of them a hundred thousand times. */
const plainWords = new Map<string, string>()

/** The one text for a name that every line of a journal spells out anew: it takes no room, and comparing it no time. */
export const oneText = <T extends string>(name: T): T => (texts.get(name) as T | undefined) ?? name
const texts: ReadonlyMap<string, string> = new Map(
  [...CARES, ...EXPOSURES, 'serviceable', 'unserviceable'].map((name) => [name, name]),
)

/** Kinds that are made as one assembly and worn only together. */
const FAMILIES: readonly (readonly Kind[])[] = [
  ['coat-shell', 'coat-liner', 'drag-rescue-device'],
  ['trouser-shell', 'trouser-liner'],
]
export const familyOf = (kind: Kind): readonly Kind[] =>
  FAMILIES.find((family) => family.includes(kind)) ?? [kind]
