// Keys while an action asks its questions. A typed letter narrows a list or is part of a text; Enter takes; Esc goes one step back.
import { cleanText } from '../../domain/clean.ts'
import { labelled } from '../../domain/labels.ts'
import type { Answers, Deed, Step } from '../actions/action.ts'
import { askOfficer } from '../actions/ask.ts'
import type { Token } from '../input/keys.ts'
import { keepLast } from '../keep-last.ts'
import { actionBy } from '../keymap.ts'
import { toldOf } from '../panels/told.ts'
import type { View } from '../view.ts'
import { isProposed, leave, say, type Effect, type Ui, type Updated } from '../ui-state.ts'
import { bare, narrowed, ownWords } from './narrowed.ts'
import { around } from './scroll.ts'

const SPEAKER = 'speaker'

const answersOf = (ui: Ui): Answers => Object.fromEntries(ui.answers.map(({ name, value }) => [name, value]))

/** A list may be of a whole department; what is typed, as a PIN is, stays nowhere. */
const keptList = keepLast<Step>((step) => step.ask === 'choose')

/** The question being asked now: a list is the same while neither the books, the minute nor the answers change. */
export function stepOf(view: View, ui: Ui): Step {
  const { state, board, row, speaker, stopped, unicode, size, acts, plan } = view
  const seen = [state, board, row, speaker, stopped, unicode, size.columns, size.rows, acts, plan]
  return keptList([...seen, ui.action, ui.answers, ui.speaker], () => nextStep(view, ui))
}

/** Whoever acts while no tour is open says who they are first. */
function nextStep(view: View, ui: Ui): Step {
  const action = actionBy(ui.action!)
  const answers = answersOf(ui)
  const isNamed = view.speaker !== undefined || action.asksWho || action.recordsNothing
  const whoAsks = isNamed
    ? undefined
    : askOfficer(view, answers, SPEAKER, 'No tour is open. Who is at the board?')
  if (whoAsks?.ask === 'choose') {
    const last = whoAsks.options.findIndex((each) => each.value === ui.speaker)
    return { ...whoAsks, start: Math.max(0, last) }
  }
  const speaker = view.speaker ?? answers[SPEAKER]
  return whoAsks ?? action.next({ ...view, speaker }, answers)
}

/** The standing line says why; a question whose answer cannot be kept is not asked. */
export const STOPPED = 'Nothing can be recorded, and the standing line says why. Nothing was done.'

export function startSheet(ui: Ui, view: View, action: string, first: Ui['answers'] = []): Updated {
  if (view.stopped && !actionBy(action).recordsNothing) return say(ui, STOPPED)
  const from = ui.screen === 'sheet' || ui.screen === 'card' ? ui.from : ui.screen
  return ask({ ...ui, screen: 'sheet', from, action, answers: first }, view)
}

/** Puts the question on the screen with its first option or text in hand: what was typed for it already, or taken before. */
function ask(ui: Ui, view: View, typed = '', taken = ''): Updated {
  const step = stepOf(view, ui)
  if (step.ask === 'done') return perform({ ...ui, screen: ui.from, under: asked(ui) }, step.deed)
  const cursor = step.ask === 'choose' ? (step.start ?? 0) : 0
  const isLine = step.ask === 'write' && !step.isSecret
  const proposed = isLine ? taken || (step.initial ?? '') : ''
  return { ui: { ...ui, cursor, top: 0, text: (isLine && typed) || proposed, proposed } }
}

/** The question that was just answered, as it was. */
const asked = ({ action, answers, text, cursor }: Ui): Ui['under'] => ({
  action,
  answers: answers.slice(0, -1),
  text,
  cursor,
})

export function updateSheet(ui: Ui, token: Token, view: View): Updated {
  const step = stepOf(view, ui)
  if ('scan' in token) {
    if (step.ask === 'write' && step.isScanned && !token.tooLong)
      return say({ ...ui, text: cleanText(token.scan).slice(0, LONGEST) }, 'Read. Enter takes it.')
    if (step.ask === 'write' && step.isSecret) return say(ui, 'A scan is not a PIN. Type it.')
    if (step.ask === 'choose' && !token.tooLong) return scanned(ui, token.scan, view, step)
    return say(
      ui,
      `Read "${cleanText(token.scan)}": a scan is not an answer. Use the keys, or Esc to go back.`,
    )
  }
  if ('key' in token && token.key === 'escape') return back(ui, view)
  switch (step.ask) {
    case 'choose':
      return choose(ui, token, view, step)
    case 'write':
      return write(ui, token, view, step)
    case 'confirm':
      if (!('key' in token) || token.key !== 'enter') return { ui }
      return isRefused(step)
        ? say(ui, 'Nothing can be done here. Esc goes back.')
        : perform(leave(ui), step.deed)
    case 'done':
      return perform(leave(ui), step.deed)
  }
}

/** A scan puts what it names in hand where the list has it; only a key takes it. */
function scanned(ui: Ui, scan: string, view: View, step: Extract<Step, { ask: 'choose' }>): Updated {
  const known = labelled(view.state, scan)
  const at = step.options.findIndex((each) => known.some(({ id }) => id === each.value))
  const read = `Read "${cleanText(scan)}"`
  if (at >= 0) {
    const words = `${read}: ${known.length > 1 ? 'the first of several with it is' : 'it is'} in hand. Enter takes it.`
    return say({ ...ui, text: '', cursor: at }, words)
  }
  return say(
    ui,
    `${read}: a scan is not an answer, and this is not in the list. Use the keys, or Esc to go back.`,
  )
}

/** A last look at what would be refused: there is nothing to confirm. */
export const isRefused = (step: Step): boolean =>
  step.ask === 'confirm' && 'commands' in step.deed && !step.deed.commands.length

/** One step back: first the letters typed, then the last answer, which stands on its line again, then the whole action. */
function back(ui: Ui, view: View): Updated {
  const step = stepOf(view, ui)
  if (step.ask === 'choose' && ui.text) return { ui: { ...ui, text: '', cursor: 0 } }
  // What an action was started with is not an answer to take back.
  const isFirst = ui.answers.every((each) => each.isGiven)
  const last = ui.answers.at(-1)
  const went = isFirst
    ? { ui: leave(ui) }
    : ask({ ...ui, answers: ui.answers.slice(0, -1) }, view, '', last?.value)
  const isOwn = step.ask === 'write' && !step.isSecret && ui.text && ui.text !== step.initial
  return isOwn ? say(went.ui, `"${ui.text}" was not taken.`) : went
}

const take = (ui: Ui, view: View, name: string, value: string, typed?: string): Updated =>
  ask(
    { ...ui, answers: [...ui.answers, { name, value }], ...(name === SPEAKER && { speaker: value }) },
    view,
    typed,
  )

function choose(ui: Ui, token: Token, view: View, step: Extract<Step, { ask: 'choose' }>): Updated {
  const options = narrowed(step, ui.text)
  const move = (by: number): Updated => ({
    ui: { ...ui, cursor: Math.max(0, Math.min(options.length - 1, ui.cursor + by)) },
  })
  const { top, last, page } = toldOf(step, view, view.size, ui.top)
  const readOn = (by: number): Updated => ({
    ui: { ...ui, top: Math.max(0, Math.min(last, top + by * page)) },
  })
  if ('char' in token && step.isNumbered) {
    const at = /^[1-9]$/.test(token.char) ? Number(token.char) - 1 : -1
    return options[at] ? { ui: { ...ui, cursor: at } } : say(ui, `${token.char} is no number of this list.`)
  }
  // A sign alone narrows nothing: the key that opened the list, pressed again, is not typed into it.
  if ('char' in token && !ui.text && !bare(token.char)) return { ui }
  if ('char' in token) return { ui: { ...ui, text: ui.text + token.char, cursor: 0 } }
  if (!('key' in token)) return { ui }
  switch (token.key) {
    case 'up':
      return { ui: { ...ui, cursor: around(ui.cursor, -1, options.length) } }
    case 'down':
      return { ui: { ...ui, cursor: around(ui.cursor, 1, options.length) } }
    case 'page-up':
      return step.lines ? readOn(-1) : move(-10)
    case 'page-down':
      return step.lines ? readOn(1) : move(10)
    case 'home':
      return move(-options.length)
    case 'end':
      return move(options.length)
    case 'backspace':
      return { ui: { ...ui, text: ui.text.slice(0, -1), cursor: 0 } }
    case 'enter': {
      const option = options[ui.cursor]
      if (!option && options.length) return say(ui, 'Nothing is in hand yet: choose one first.')
      if (!option) return say(ui, 'There is nothing here to take. Esc goes back.')
      if (option.blocked) return say(ui, option.blocked)
      return take(ui, view, step.name, option.value, ownWords(step, option, ui.text))
    }
    default:
      return { ui }
  }
}

const LONGEST = 500

function write(ui: Ui, token: Token, view: View, step: Extract<Step, { ask: 'write' }>): Updated {
  // Whoever types does not take what was proposed; Backspace goes into it.
  const before = isProposed(ui) ? '' : ui.text
  if ('char' in token) return { ui: { ...ui, text: (before + token.char).slice(0, LONGEST) } }
  if ('paste' in token) return { ui: { ...ui, text: (before + cleanText(token.paste)).slice(0, LONGEST) } }
  if (!('key' in token)) return { ui }
  if (token.key === 'backspace') return { ui: { ...ui, text: [...ui.text].slice(0, -1).join('') } }
  if (token.key === 'ctrl-u') return { ui: { ...ui, text: '' } }
  if (token.key !== 'enter') return { ui }
  const text = cleanText(ui.text)
  const fault = step.fault?.(text)
  if (!fault) return take(ui, view, step.name, text)
  // What nobody sees nobody can mend: it is typed anew, not added to.
  return say(step.isSecret ? { ...ui, text: '' } : ui, fault)
}

function perform(ui: Ui, deed: Deed): Updated {
  const left = { ...ui, action: null, answers: [], text: '', cursor: 0 }
  if ('export' in deed) return { ui: left, effect: { export: deed.export } }
  if ('log' in deed)
    return { ui: { ...left, under: null, filter: deed.log, entry: null }, effect: { log: true } }
  if ('card' in deed) return { ui: left, effect: { card: deed.card } }
  const effect: Effect = { submit: deed.commands, done: deed.done, follow: deed.follow, again: deed.again }
  return { ui: left, effect }
}
