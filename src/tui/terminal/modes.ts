// Takes the terminal for the board and gives it back however the program ends; it must never leave it changed.
import { writeSync } from 'node:fs'
import { constants } from 'node:os'

export type Held = { isUp: () => boolean; giveBack: () => void; hangUp: () => void }
type Terminal = NodeJS.WriteStream & { fd: number }
type Holding = {
  stdin: NodeJS.ReadStream
  stdout: Terminal
  /** The terminal is ours again after a stop: what it shows is unknown. */
  onBack: () => void
}

// Autowrap comes back after the alternate screen has gone, because leaving it restores what was saved with the cursor.
const LEAVE = '\x1b[?2026l\x1b[0m\x1b[?2004l\x1b[?1049l\x1b[?7h\x1b[?25h'
// An earlier run that was killed outright may have left its modes. The cursor is saved first, because leaving an
// alternate screen that is not there would send it to the corner of the screen.
const ENTER = `\x1b7${LEAVE}\x1b[?1049h\x1b[?7l\x1b[?25l\x1b[?2004h\x1b[0m\x1b[2J`
const ENDINGS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const
const TRIES = 1000

/** Alternate screen, no cursor, no autowrap, marked pastes, raw keys, until `giveBack` or the end of the process. */
export function holdTerminal({ stdin, stdout, onBack }: Holding): Held {
  let isUp = false

  const enter = () => {
    // Twice, because a shell may have changed the terminal behind a stopped program that still believes it raw.
    setRaw(stdin, false)
    setRaw(stdin, true)
    isUp = true
    put(stdout, ENTER)
  }
  const leave = () => {
    if (!isUp) return
    isUp = false
    put(stdout, LEAVE)
    setRaw(stdin, false)
  }
  const end = (signal: NodeJS.Signals) => {
    leave()
    process.exit(128 + constants.signals[signal])
  }
  const hangUp = () => end('SIGHUP')
  const stop = () => {
    leave()
    process.kill(process.pid, 'SIGSTOP')
  }
  const goOn = () => {
    enter()
    // The size may have changed in the background, where no SIGWINCH reaches; this makes Node look again.
    process.emit('SIGWINCH', 'SIGWINCH')
    onBack()
  }

  for (const signal of ENDINGS) process.on(signal, end)
  process.on('SIGTSTP', stop)
  process.on('SIGCONT', goOn)
  process.on('exit', leave)
  // Only watches: Node then prints the error, on a screen that can hold it, and exits with 1. Rejections come here too.
  process.on('uncaughtExceptionMonitor', leave)
  stdout.on('error', hangUp)
  enter()
  const giveBack = () => {
    leave()
    for (const signal of ENDINGS) process.off(signal, end)
    process.off('SIGTSTP', stop)
    process.off('SIGCONT', goOn)
    process.off('exit', leave)
    process.off('uncaughtExceptionMonitor', leave)
    stdout.off('error', hangUp)
  }
  return { isUp: () => isUp, giveBack, hangUp }
}

function setRaw(stdin: NodeJS.ReadStream, isRaw: boolean): void {
  try {
    stdin.setRawMode(isRaw)
  } catch {
    // The terminal has gone; there is nothing left to restore.
  }
}

/** Writes now: a process that is ending has no later. */
function put(stdout: Terminal, text: string): void {
  const bytes = Buffer.from(text)
  let from = 0
  for (let tries = 0; from < bytes.length && tries < TRIES; tries++) {
    try {
      from += writeSync(stdout.fd, bytes, from)
    } catch (error) {
      const isBusy = error instanceof Error && 'code' in error && error.code === 'EAGAIN'
      // A terminal that has gone cannot be restored.
      if (!isBusy) return
    }
  }
}
