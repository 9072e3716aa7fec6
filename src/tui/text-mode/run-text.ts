// The board as a conversation in lines: it prints, reads a line and prints again; no cursor, no colour, nothing printed unasked.
import { count as sayCount } from '../../domain/count.ts'
import { createInterface } from 'node:readline'
import type { Session } from '../../session.ts'
import { capital } from '../../domain/decide/decision.ts'
import { startLoop } from '../board-loop.ts'
import type { Desk } from '../desk.ts'
import { wrap } from '../../exports/wrap.ts'
import { actionBy } from '../keymap.ts'
import { safeLine } from '../terminal/frame.ts'
import type { Ui } from '../ui-state.ts'
import { inLines, type Spoken } from './choice.ts'
import { spoken } from './spoken.ts'
import { sayBriefly, sayNow } from './spoken-board.ts'
import { scanned, understood } from './understood.ts'

interface Running {
  session: Session
  desk: Desk
  stdin: NodeJS.ReadableStream & { isTTY?: boolean }
  stdout: NodeJS.WritableStream & { isTTY?: boolean; columns?: number }
  /** What the scanners of this station put before a code. */
  scanPrefix?: string
}

/** As many lines as are heard at once; `more` reads on. */
const AT_ONCE = 30
/** A list up to here is read out again as often as it is come back to. */
const SHORT = 9
const SIZE = { columns: 100, rows: 60 }
const CHANGED = 'What was told here has changed: nothing was done. This is how it stands now.'
const FIRST_WORDS =
  'Bayboard in lines of text. Type a number or a word and Enter. quit leaves; everything accepted is already on disk.'

export async function runText({ session, desk, stdin, stdout, scanPrefix = '' }: Running): Promise<void> {
  let isLeft = false
  const loop = startLoop({ session, desk, unicode: false, size: () => SIZE, leave: () => (isLeft = true) })
  const isTerminal = Boolean(stdin.isTTY && stdout.isTTY)
  let said: Spoken = { lines: [], choices: [], hint: '' }
  let unread: string[] = []
  /** What can be typed on a screen is said once, and again when all is read again. */
  const hinted = new Set<string>()
  /** Lists that were read out, and what was told last of the board. */
  const heard = new Set<string>()
  let told = ''
  let seq = session.state.seq

  const print = (lines: readonly string[]): void => {
    const width = stdout.isTTY ? (stdout.columns || 80) - 1 : Infinity
    const out = lines.flatMap((line) => (width === Infinity ? line : wrapped(line, width)))
    stdout.write(out.map((line) => `${safeLine(line, 10_000, 'none')}\n`).join(''))
  }
  /** Reads out what is left, as far as is heard at once, then what can be typed. */
  function readOut(isWhole = false): void {
    const now = isWhole ? unread.length : AT_ONCE
    print(unread.slice(0, now))
    unread = unread.slice(now)
    if (unread.length) print([`${sayCount(unread.length, 'more line')}: more reads on.`])
    sayHint(isWhole)
  }
  function sayHint(isWhole = false): void {
    if (isWhole || !hinted.has(said.hint)) print([said.hint])
    hinted.add(said.hint)
    if (isTerminal) stdout.write('> ')
  }
  function sayScreen(before: readonly string[] = [], isAsked = false): void {
    const { view, ui } = loop.glass.read()
    const last = JSON.stringify(said)
    said = spoken(view, ui)
    print(before)
    const list = JSON.stringify(said.choices)
    const count = said.choices.length
    const isHeard = !isAsked && count > SHORT && heard.has(list)
    unread = []
    if (!isAsked && JSON.stringify(said) === last) {
      // What was heard a moment ago is not told again, neither after a refusal nor where a word did nothing.
      if (!before.length) print(['That does nothing here.', said.hint])
    } else if (isHeard || (said.isLong && !isAsked)) {
      const how = isHeard ? `The same ${count} to choose from as before` : `${count} to choose from`
      print([...said.lines, `${how}: more reads them out.`])
      unread = linesOf({ ...said, lines: [] })
    } else {
      unread = linesOf(said)
      heard.add(list)
      return readOut(said.isWhole)
    }
    sayHint()
  }
  /** Back on the board only what changed is told; Enter alone reads all of it again. */
  function sayBoard(before: readonly string[]): void {
    const { view, ui } = loop.glass.read()
    said = spoken(view, ui)
    unread = []
    const now = sayNow(view)
    const brief = before.length ? [] : sayBriefly(view)
    print([...before, ...(now.join() === told ? brief : now)])
    told = now.join()
    sayHint()
  }

  async function take(line: string): Promise<void> {
    loop.look()
    const meanwhile = session.state.seq - seq
    const { view, ui } = loop.glass.read()
    const news = meanwhile ? [`Recorded elsewhere meanwhile: ${meanwhile}. ${view.board.headline}`] : []
    const isScan = scanPrefix !== '' && line.startsWith(scanPrefix)
    const code = isScan ? line.slice(scanPrefix.length).trim() : ''
    const meant = code ? scanned(code, view, ui) : understood(line, said.choices, view, ui)
    if ('say' in meant) return sayScreen([...news, meant.say])
    if ('does' in meant) {
      if (meant.does === 'quit') isLeft = true
      else if (meant.does === 'more') readOut()
      else {
        hinted.clear()
        sayScreen(news, true)
      }
      return
    }
    // Nobody answers for what they have not heard.
    const isAnswer = ui.screen === 'sheet' || ui.screen === 'roll-call'
    if (meanwhile && isAnswer && JSON.stringify(spoken(view, ui)) !== JSON.stringify(said))
      return sayScreen([...news, CHANGED])
    for (const token of meant.tokens) loop.take(token)
    await loop.settled()
    if (isLeft) return
    const now = loop.glass.read().ui
    const message = now.message ? [inLines(now.message.text)] : []
    if (now.screen === 'board') sayBoard([...news, ...message])
    else sayScreen([...news, ...message])
  }

  let isEnded = false
  stdin.once('end', () => (isEnded = true))
  const reading = createInterface({ input: stdin, terminal: false })
  /** Of a line that the end of the input cut off nobody knows what it would have been. */
  let isTorn = false
  let waiting = 0
  reading.on('line', () => {
    waiting++
    isTorn = isEnded
  })
  // Begun before the first wait, so that no line of a pipe is lost.
  const lines = reading[Symbol.asyncIterator]()
  try {
    await session.begin()
    print([FIRST_WORDS])
    told = sayNow(loop.glass.read().view).join()
    sayScreen([], true)
    while (!isLeft) {
      seq = session.state.seq
      const { value, done } = await lines.next()
      if (done) break
      waiting--
      if (isTorn && waiting === 0) print(['The last line has no end and was not taken.'])
      else await take(value)
    }
    print([...sayBegun(loop.glass.read().ui), 'Left. Everything accepted is on disk.'])
  } finally {
    reading.close()
    await loop.settled()
    await session.close()
  }
}

/** What was asked for and never confirmed. */
function sayBegun({ screen, action }: Ui): string[] {
  if (screen !== 'sheet' || actionBy(action!).recordsNothing) return []
  return [`${capital(actionBy(action!).label)} was begun and not confirmed: nothing of it was recorded.`]
}

const linesOf = ({ lines, choices }: Spoken): string[] => [
  ...lines,
  ...choices.flatMap(({ label, under }, at) => [...(under ? [under] : []), `${at + 1}. ${label}`]),
]

function wrapped(line: string, width: number): string[] {
  const indent = /^ */.exec(line)![0].slice(0, 8)
  return wrap(line.trimStart(), width - indent.length).map((part) => indent + part)
}
