// What a typed line means on the present screen, as the keys it stands for; it must never act on an empty line or on half a word.
import { cleanText } from '../../domain/clean.ts'
import { labelled } from '../../domain/labels.ts'
import type { Key, Token } from '../input/keys.ts'
import { actionBy, ACTIONS, LOOKING } from '../keymap.ts'
import { logIndex, type Ui } from '../ui-state.ts'
import { isOffered } from '../update/offer.ts'
import { narrowed } from '../update/narrowed.ts'
import { stepOf } from '../update/sheet.ts'
import type { View } from '../view.ts'
import { NO_QUITTING, ON_BOARD, type Choice } from './choice.ts'

type Understood = { tokens: Token[] } | { say: string } | { does: 'again' | 'more' | 'quit' }

const key = (...keys: Key[]): { tokens: Token[] } => ({ tokens: keys.map((each) => ({ key: each })) })
const typed = (words: string): Token[] => [...words].map((char) => ({ char }))
const steps = (name: Key, count: number): Key[] => Array.from({ length: count }, () => name)

const GONE = 'That is not in the list any more. Enter alone reads it again.'

/** `choices` are those that were read out: a number means what was heard, not what stands there by now. */
export function understood(line: string, choices: readonly Choice[], view: View, ui: Ui): Understood {
  const words = line.trim()
  const lower = words.toLowerCase()
  if (!words) return { does: 'again' }
  if (lower === 'help' && !isWritten(view, ui)) return ui.screen === 'board' ? HELP : { does: 'again' }
  if (lower === 'quit') return { does: 'quit' }
  if (lower === 'more') return { does: 'more' }
  if (lower === 'b' || lower === 'back') return ui.screen === 'board' ? { say: ON_BOARD } : key('escape')
  // A scanner types whole lines as well. What it reads is looked up or narrows a list, and answers nothing.
  if (isAnswered(view, ui) && labelled(view.state, words).length) return { say: sayLabel(words) }
  switch (ui.screen) {
    case 'board':
      return onBoard(words, choices, view)
    case 'roll-call':
      return atRollCall(words, ui)
    case 'sheet':
      return onSheet(words, choices, view, ui)
    case 'deadlines': {
      const choice = numbered(words, choices)
      return choice ? key('home', ...steps('down', choices.indexOf(choice)), 'enter') : onPage(words, view)
    }
    case 'log':
      return onLog(words, choices, view, ui)
    case 'plan': {
      const choice = numbered(words, choices)
      return choice ? key('home', ...steps('down', choices.indexOf(choice))) : onPage(words, view)
    }
    default:
      return onPage(words, view)
  }
}

/** What is known to be a scan is neither a command, a number of a list nor an answer, whatever it reads. */
export function scanned(code: string, view: View, ui: Ui): Understood {
  const step = ui.screen === 'sheet' ? stepOf(view, ui) : undefined
  if (step?.ask === 'choose') return { tokens: narrowing(code, ui) }
  if (step?.ask === 'write' && step.isScanned) return { tokens: written(code) }
  if (step || ui.screen === 'roll-call') return { say: `Read "${cleanText(code)}": a scan is not an answer.` }
  return { tokens: [{ scan: code }] }
}

/** Letters would leave an offer that nobody has gone into, and be keys of the board. */
const narrowing = (words: string, ui: Ui): Token[] => [
  ...(isOffered(ui) ? key('home').tokens : ui.text ? key('escape').tokens : []),
  ...typed(words),
]
const written = (words: string): Token[] => [{ key: 'ctrl-u' }, { paste: words }, { key: 'enter' }]

const HELP = { tokens: typed(LOOKING.find((each) => each.id === 'help')!.key) }
const isWritten = (view: View, ui: Ui): boolean => ui.screen === 'sheet' && stepOf(view, ui).ask === 'write'

const sayLabel = (words: string): string =>
  `Read "${words}": a label is not an answer. If these are your own words, type /${words}`

/** Would words be taken as they are here? A line that asks for a scan takes one. */
function isAnswered(view: View, ui: Ui): boolean {
  if (ui.screen === 'roll-call') return true
  if (ui.screen !== 'sheet') return false
  const step = stepOf(view, ui)
  return step.ask === 'write' && !step.isScanned
}

const isNumber = (words: string): boolean => /^\d{1,4}$/.test(words)

/** What a number stands for among what was read out. */
function numbered(words: string, choices: readonly Choice[]): Choice | undefined {
  return isNumber(words) ? choices[Number(words) - 1] : undefined
}

/** A number is never anything but a choice: what there is none of is said. */
const sayNoSuch = (words: string, count: number): string =>
  count
    ? `There is no ${words} here, only 1 to ${count}. To look for ${words}, type /${words}`
    : `There is nothing to choose by a number. To look for ${words}, type /${words}`

function onBoard(words: string, choices: readonly Choice[], view: View): Understood {
  const choice = numbered(words, choices)
  if (choice) {
    const at = view.rows.findIndex((row) => row.seat === choice.value)
    return at < 0 ? { say: GONE } : key('home', ...steps('down', at))
  }
  const named = [...ACTIONS, ...LOOKING].find((each) => each.label.toLowerCase() === words.toLowerCase())
  if (named || [...words].length === 1) return { tokens: typed(named?.key ?? words) }
  return lookedUp(words, view)
}

/** A label, or words that only one thing has, shows its card; what several have is listed where there is a list. */
function lookedUp(line: string, view: View, hasList = true): Understood {
  const words = line.replace(/^\/(?=.)/, '')
  if (labelled(view.state, words).length) return { tokens: [{ scan: words }] }
  const find = actionBy('find')
  const step = find.next(view, {})
  const found = step.ask === 'choose' ? narrowed(step, words) : []
  if (found.length === 1) return { tokens: [{ scan: found[0]!.value }] }
  if (found.length && hasList) return { tokens: typed(find.key + words) }
  const what = found.length ? `${found.length} things have` : 'Nothing here has'
  return { say: `${what} "${cleanText(words)}" in an id, a name or a serial.` }
}

function atRollCall(words: string, ui: Ui): Understood {
  const clear: Token[] = ui.gauge ? key('escape').tokens : []
  switch (words.toLowerCase()) {
    case 'ok':
      if (ui.gauge)
        return { say: `${ui.gauge} psi is not recorded yet: psi ${ui.gauge} records it, back takes it away.` }
      return key('enter')
    case 'next':
      return key('down')
    case 'previous':
      return key('up')
  }
  // A reading, and what its thermometer said where somebody looked: `psi 4400`, `psi 4400 -10C`; a bare number may be meant for a list.
  const reading = /^psi +(\d{1,5}(?: +-?\d{1,3}(?:\.\d)? ?[cf])?)$/i.exec(words)?.[1]
  if (reading)
    // What was typed before is put away, unless this is the same reading said again.
    return {
      tokens: ui.doubted === reading ? key('enter').tokens : [...clear, ...typed(reading), { key: 'enter' }],
    }
  if (/^\d/.test(words))
    return { say: `Nothing was recorded. If ${words} is the pressure, type: psi ${words}` }
  if ([...words].length === 1) return { tokens: typed(words) }
  return { say: `"${words}" is no answer. ok answers, psi 4400 is a pressure, f is a finding.` }
}

function onSheet(words: string, choices: readonly Choice[], view: View, ui: Ui): Understood {
  const step = stepOf(view, ui)
  const lower = words.toLowerCase()
  // A leading slash takes the words as they are: /back, /12.
  const plain = words.startsWith('/') && words.length > 1 ? words.slice(1) : words
  switch (step.ask) {
    case 'choose': {
      const choice = numbered(words, choices)
      if (!choice && isNumber(words) && !labelled(view.state, words).length)
        return { say: sayNoSuch(words, choices.length) }
      if (!choice && isOffered(ui) && [...words].length === 1) return { tokens: typed(words) }
      if (!choice) return { tokens: narrowing(plain, ui) }
      const at = narrowed(step, ui.text).findIndex((each) => each.value === choice.value)
      return at < 0 ? { say: GONE } : key('home', ...steps('down', at), 'enter')
    }
    case 'write':
      if (lower === 'keep' && ui.text) return key('enter')
      if (lower === 'none') return key('ctrl-u', 'enter')
      return { tokens: written(plain) }
    case 'confirm':
    case 'done':
      return lower === 'yes' ? key('enter') : { say: 'Nothing was done. Only the whole word yes does it.' }
  }
}

function onLog(words: string, choices: readonly Choice[], view: View, ui: Ui): Understood {
  const choice = numbered(words, choices)
  if (!choice) {
    return onPage(words, view)
  }
  const at = ui.log.findIndex((each) => String(each.seq) === choice.value)
  const from = logIndex(ui)
  if (at < 0) return { say: GONE }
  return key(...steps(at < from ? 'up' : 'down', Math.abs(at - from)))
}

const PAGE_KEYS: Readonly<Record<string, Key>> = {
  up: 'up',
  down: 'down',
  enter: 'enter',
  tab: 'tab',
}

const LEAVES = LOOKING.find((each) => each.id === 'quit')!.key

function onPage(words: string, view: View): Understood {
  if (words === LEAVES) return { say: NO_QUITTING }
  const named = PAGE_KEYS[words.toLowerCase()]
  if (named) return key(named)
  return [...words].length === 1 ? { tokens: typed(words) } : lookedUp(words, view, false)
}
