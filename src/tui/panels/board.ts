// The first screen: who may not ride, and why, in words; the ensemble in hand beneath; what to press next.
import { count } from '../../domain/count.ts'
import { widthOf, wrap } from '../../exports/wrap.ts'
import { clip } from '../cells.ts'
import { sayBack } from '../own-back.ts'
import { factsOf, KINDS, wordOf, type Kind } from '../../domain/kinds.ts'
import { ACTIONS, KEY_LINE, LOOKING } from '../keymap.ts'
import { plainLine, type Line } from '../theme.ts'
import type { Ui } from '../ui-state.ts'
import type { View } from '../view.ts'
import { ensemblePanel, hasTable } from './ensemble.ts'
import { bodyHeight, foot, head, screen, spread, type Size } from './frame.ts'
import { listHeight, seatList } from './seat-list.ts'

/** At least a title and five lines for the ensemble; all that is left over when the list is short. */
const LEAST_PANEL = 7
const MOST_PANEL = 14

export function boardScreen(view: View, ui: Ui, size: Size): Line[] {
  const told = toldLines(view, size.columns)
  const height = bodyHeight(view, size) - told.length
  const whole = listHeight(view, size.columns)
  const panel = Math.max(LEAST_PANEL, Math.min(MOST_PANEL, height - whole))
  const list = view.rows.length
    ? seatList(view, ui.kind, size.columns, height - panel)
    : SETTING_UP.map((text) => plainLine(clip(` ${text}`, size.columns, view.unicode)))
  const gap = Array.from({ length: Math.max(0, height - panel - list.length) }, (): Line => [])
  const body = [
    ...told,
    ...list,
    ...gap,
    ...withLetters(ensemblePanel(view, ui.kind, size.columns, panel), ui.kind, size.columns, panel),
  ]
  return screen(
    head(view, size),
    body,
    foot(ui, size, view.stopped ? stoppedKeys(view) : keyLine(size.columns, firstStep(view)), view.unicode),
    size,
  )
}

/** The roll call, and what a key would put right: gear to be called again, one's own that is back. */
function toldLines(view: View, width: number): Line[] {
  const { board, rows, unicode, stopped } = view
  // Nothing can be recorded: no key that records is offered.
  const first = stopped || !rows.length ? undefined : firstStep(view)
  const rollCall = spread(
    ` ${board.rollCall.words}${first ? FIRST_WORDS[first] : ''}`,
    `${policyNote(view)} `,
    width,
    unicode,
  )
  if (stopped) return [plainLine(rollCall)]
  const again = board.rollCall.again && `${board.rollCall.again} r calls them again.`
  const more = [again, sayBack(view)].flatMap((text) =>
    // Whole, whatever the names: its end is what to press.
    text ? wrap(text, width - 2).map((part) => plainLine(` ${part}`, 'warn')) : [],
  )
  return [plainLine(rollCall), ...more]
}

/** The letters at the foot of the panel where lines are left over there; a table names each kind beside its letter already. */
function withLetters(panel: Line[], kind: Kind | null, width: number, height: number): Line[] {
  if (!panel.length || kind || hasTable(height, width)) return panel
  const free = height - panel.length
  if (free < 1) return panel
  const whole = legend(width)
  const letters = whole.length <= free ? whole : [plainLine(` ${IN_WORDS}`)]
  const left = free - letters.length
  return [...panel, ...Array.from({ length: left }, (): Line => []), ...letters]
}

const UNBROKEN = '\u00a0'

/** What each letter above the marks stands for; a letter is never parted from its word. */
function legend(width: number): Line[] {
  const heads = KINDS.map((kind) => `${factsOf(kind).mark} ${wordOf(kind)}`.replaceAll(' ', UNBROKEN))
  return wrap(`Columns: ${heads.join(', ')}.`, width - 2).map((text) =>
    plainLine(` ${text.replaceAll(UNBROKEN, ' ')}`),
  )
}

const IN_WORDS = 'The left and right keys say each column in words.'

/** What still can be done where nothing can be recorded: look, take a log away, leave. */
export const stoppedKeys = (view: View): string =>
  [
    ...ACTIONS.filter((each) => each.recordsNothing && !each.blocked?.(view)),
    ...LOOKING.filter(({ id }) => id !== 'roll-call' && id !== 'plan'),
  ]
    .map(({ key, label }) => `${key} ${label}`)
    .join('  ')

const SETTING_UP = [
  '',
  'Leave with q and describe the station:',
  '  bayboard record < rigs.jsonl    the rigs and their riding positions',
  '  bayboard import members.csv     the members, then the gear in the same way',
  'README.md shows what these files hold.',
]

/** What the help tells about the policy is announced here, so that nobody takes a looser rule for the published one. */
function policyNote({ board }: View): string {
  const { looser, provisional } = board.policy
  if (looser.length) return `${count(looser.length, 'looser rule')}, see ?`
  return provisional ? 'rules to confirm, see ?' : ''
}

type FirstStep = 'open-tour' | 'seat-member'
const FIRST_WORDS: Readonly<Record<FirstStep, string>> = {
  'open-tour': ' Press o to open it.',
  'seat-member': ' Press m to seat the crew.',
}

/** What comes before the roll call, where nobody can be called yet. */
export const firstStep = ({ state, board }: View): FirstStep | undefined =>
  !state.tour ? 'open-tour' : board.rollCall.filled ? undefined : 'seat-member'

/** As many keys as fit, the last two always; what comes before the roll call stands before it. */
export function keyLine(width: number, first?: FirstStep): string {
  const known = [...ACTIONS, ...LOOKING]
  const others = KEY_LINE.filter((id) => id !== 'open-tour')
  const order = first ? [first, ...others] : others
  const words = order
    .map((id) => known.find((each) => each.id === id)!)
    .map((each) => `${each.key} ${each.label}`)
  const rest = ACTIONS.filter((each) => !order.includes(each.id)).map((each) => `${each.key} ${each.label}`)
  const ends = words.slice(-2)
  const line: string[] = []
  for (const word of [...words.slice(0, -2), ...rest]) {
    if (widthOf([...line, word, ...ends].join('  ')) > width - 2) break
    line.push(word)
  }
  return [...line, ...ends].join('  ')
}
