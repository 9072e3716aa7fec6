// Reading back what the last tour left open: one page an item, one key a page, and nothing recorded before the last look.
import type { Command } from '../../domain/commands.ts'
import { count } from '../../domain/count.ts'
import { capital } from '../../domain/decide/decision.ts'
import { acknowledgedBy, openItems, sayOwner, type OpenItem } from '../../domain/items.ts'
import { familyOf } from '../../domain/kinds.ts'
import type { State } from '../../domain/state.ts'
import { clip } from '../cells.ts'
import type { View } from '../view.ts'
import { confirm, type Action, type Answers, type LookLine, type Option, type Step } from './action.ts'

/** Of an item's words when it is repeated: a whole crew's exposure names every element. */
const LONGEST = 160

export const sayItems = (items: number): string => count(items, 'open item is', 'open items are')

const unread = (state: State): OpenItem[] => openItems(state).filter((item) => !acknowledgedBy(state, item))

/** What is on one page: the layers of an assembly of which the same is open go together; all else by itself. */
function pagesOf(state: State): OpenItem[][] {
  const pages = new Map<string, OpenItem[]>()
  for (const item of unread(state)) {
    const page = assemblyPage(state, item) ?? item.id
    pages.set(page, [...(pages.get(page) ?? []), item])
  }
  return [...pages.values()]
}

/** `stand-in- coat-shell A-9`, for the shell, the liner and the drag rescue device alike. */
function assemblyPage(state: State, { id, about }: OpenItem): string | undefined {
  const element = about.length === 1 ? state.elements.get(about[0]!) : undefined
  if (element?.assembly === undefined || !id.endsWith(element.id)) return undefined
  const layers = familyOf(element.kind)
  return `${id.slice(0, -element.id.length)} ${layers[0]} ${element.assembly}`
}

const STOPS = 'stop'
const TAKES = 'yes'
const nameOfPage = ([first]: readonly OpenItem[]): string => `page ${first!.id}`
const whole = (items: readonly OpenItem[]): LookLine[] => items.map(({ words }) => ({ text: words }))

export const acknowledge: Action = {
  id: 'acknowledge',
  isOfStation: true,
  key: 'a',
  label: 'open items',
  help: 'Read back what the last tour left open, one key an item, and take on what was read.',
  blocked: ({ state }) =>
    state.tour
      ? unread(state).length
        ? undefined
        : 'Every open item has been acknowledged in this tour.'
      : 'No tour is open. Open the tour first.',
  next(view, answers) {
    const pages = pagesOf(view.state)
    const isStopped = Object.values(answers).includes(STOPS)
    const at = pages.findIndex((page) => answers[nameOfPage(page)] === undefined)
    const taken = pages.filter((page) => answers[nameOfPage(page)] === TAKES)
    if (at >= 0 && !isStopped) return pageStep(view, pages, at, taken.length > 0)
    return lastLook(view, taken, answers)
  },
}

function pageStep(
  { state }: View,
  pages: readonly (readonly OpenItem[])[],
  at: number,
  mayStop: boolean,
): Step {
  const page = pages[at]!
  const it = page.length === 1 ? 'it' : 'them'
  const options: Option[] = [
    { value: TAKES, label: `Read: you take ${it} on` },
    { value: 'no', label: `Leave ${it} for later` },
    ...(mayStop ? [{ value: STOPS, label: 'Stop here: only what was read so far is taken on' }] : []),
  ]
  const lines = page.flatMap((item): LookLine[] => [
    { text: item.words },
    { text: item.ifThen, tone: 'warn' },
    ...(item === page.at(-1) ? [{ text: `${capital(sayOwner(state, item))}.` }] : []),
  ])
  const title = `Open item ${at + 1} of ${pages.length} not yet acknowledged.`
  return { ask: 'choose', name: nameOfPage(page), title, lines, options }
}

/** A key that is held down comes as far as this and takes nothing: where several were read, a key has to choose first. */
function lastLook(view: View, taken: readonly (readonly OpenItem[])[], answers: Answers): Step {
  const items = taken.flat()
  const all = count(items.length, 'open item')
  if (taken.length > 1 && answers['all'] === undefined) {
    const options: Option[] = [
      {
        value: 'no',
        label: 'Not yet: something is unclear',
        blocked: 'Ask first; Esc goes back.',
      },
      { value: TAKES, label: `These were read; you take them on: ${all}` },
    ]
    return { ask: 'choose', name: 'all', title: `You take on ${all}.`, lines: whole(items), options }
  }
  const left = unread(view.state).length - items.length
  const [only] = items
  const words = items.length === 1 ? clip(only!.words, LONGEST, view.unicode) : `${all}.`
  return confirm(
    view,
    items.length ? `Do you take on ${all}?` : 'Nothing was taken on. Esc goes back.',
    items.map(({ id }): Command => ({ do: 'acknowledge', by: view.speaker!, item: id })),
    `Acknowledged: ${words} ${left ? `${left} left.` : 'None is left.'}`,
    whole(items),
  )
}
