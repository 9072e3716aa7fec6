// Feeds the tokenizer from a terminal and a timer; it must never decide what a token means.
import type { Token } from './keys.ts'
import { START, dueMs } from './tokenizer-state.ts'
import type { TokenizerState } from './tokenizer-state.ts'
import { flush, tokenize } from './tokenizer.ts'
import type { Tokenized } from './tokenizer.ts'

type Listening = {
  stdin: Pick<NodeJS.ReadStream, 'on' | 'off' | 'resume' | 'pause'>
  onToken: (token: Token) => void
  /** What the scanners put before a code. */
  prefix?: string
  /** The terminal has gone: nothing will be typed any more. */
  onGone?: () => void
}

// How often to look whether the wait is over, while something is held back.
const LOOK_MS = 5

/** Starts reading; the function that comes back stops it and lets the process end. */
export function listen({ stdin, onToken, prefix = '', onGone = () => {} }: Listening): () => void {
  let state: TokenizerState = { ...START, prefix }
  let isStopped = false
  let timer: NodeJS.Timeout | undefined
  let clockMs = 0
  let lookedMs = performance.now()

  // While the program is busy, bytes lie unread and their times are lost. So while something is held back, only time
  // spent looking counts, and a scan that arrives meanwhile is not torn apart.
  const look = () => {
    const nowMs = performance.now()
    const passedMs = nowMs - lookedMs
    lookedMs = nowMs
    clockMs += dueMs(state) === undefined ? passedMs : Math.min(passedMs, 2 * LOOK_MS)
    return Math.floor(clockMs)
  }
  const deliver = (result: Tokenized) => {
    state = result.state
    clearTimeout(timer)
    const due = dueMs(state)
    if (due !== undefined) timer = setTimeout(tick, Math.min(LOOK_MS, Math.max(1, due - clockMs)))
    for (const token of result.tokens) if (!isStopped) onToken(token)
  }
  const settle = () => {
    if (!isStopped) deliver(flush(state, look()))
  }
  const tick = () => {
    look()
    // Timers run before reads: what the terminal has sent by now is to be read first.
    setImmediate(settle)
  }
  const read = (bytes: Uint8Array | string) => deliver(tokenize(state, bytes, look()))
  const gone = () => {
    if (!isStopped) onGone()
  }

  stdin.on('data', read)
  stdin.on('end', gone)
  // Stays for good: a closed terminal may still report an error after the board has gone.
  stdin.on('error', gone)
  stdin.resume()
  return () => {
    isStopped = true
    clearTimeout(timer)
    stdin.off('data', read)
    stdin.off('end', gone)
    stdin.pause()
  }
}
