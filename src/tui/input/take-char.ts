// Takes one character, or the passing of time, into the tokenizer's state; it must never let a scan act as typed keys.
import {
  AGAIN_MS,
  END_MS,
  GAP_MS,
  addChar,
  addKey,
  burstCode,
  burstDueMs,
  isFast,
  isHeldKey,
  isTooLong,
  openBurst,
  releaseBurst,
} from './burst.ts'
import type { Burst } from './burst.ts'
import { controlKey } from './keys.ts'
import type { Token } from './keys.ts'
import { PASTE_MS, addPasted, openPaste, pastedToken } from './paste.ts'
import { ESC, readSequence } from './sequence.ts'
import { sequenceDueMs } from './tokenizer-state.ts'
import type { Draft } from './tokenizer-state.ts'

/** Lets go of what has waited long enough by `atMs`. */
export function expire(draft: Draft, atMs: number): void {
  if (draft.burst && atMs >= burstDueMs(draft.burst)) release(draft, atMs)
  if (draft.sequence !== '' && atMs >= sequenceDueMs(draft)) endSequence(draft)
  if (draft.paste && atMs >= draft.paste.lastMs + PASTE_MS) {
    draft.tokens.push(pastedToken(draft.paste))
    draft.paste = undefined
  }
}

export function takeChar(draft: Draft, char: string, atMs: number): void {
  if (draft.paste) {
    draft.paste = addPasted(draft.paste, char, atMs)
    if (!draft.paste.isWhole) return
    draft.tokens.push(pastedToken(draft.paste))
    draft.paste = undefined
  } else if (draft.sequence !== '' || char === ESC) {
    takeSequence(draft, char, atMs)
  } else if (/[\0-\x1f\x7f]/.test(char)) {
    takeControl(draft, char, atMs)
  } else if (!/[\x80-\x9f\u2028\u2029\ufeff]/.test(char)) {
    takePrintable(draft, char, atMs)
  }
}

function takeSequence(draft: Draft, char: string, atMs: number): void {
  draft.sequence += char
  draft.sequenceMs = atMs
  const read = readSequence(draft.sequence)
  if (read === 'more') return
  if (read === 'broken') {
    draft.sequence = draft.sequence.slice(0, -1)
    endSequence(draft)
    takeChar(draft, char, atMs)
    return
  }
  draft.sequence = ''
  if (read === 'paste') {
    release(draft, atMs)
    draft.paste = openPaste(atMs)
  } else if (read !== 'unknown') {
    takeKey(draft, { key: read.key })
  }
}

/** A sequence that will not go on: ESC alone is the Escape key, anything longer is dropped whole. */
export function endSequence(draft: Draft): void {
  if (draft.sequence === ESC) takeKey(draft, { key: 'escape' })
  draft.sequence = ''
}

function takeKey(draft: Draft, token: Token): void {
  draft.heldKey = undefined
  if (draft.burst) draft.burst = addKey(draft.burst, token)
  else draft.tokens.push(token)
}

function takePrintable(draft: Draft, char: string, atMs: number): void {
  draft.lineFeedUntilMs = -Infinity
  draft.endingUntilMs = -Infinity
  if (draft.heldKey?.char === char && atMs <= draft.heldKey.untilMs) {
    draft.tokens.push({ char })
    draft.heldKey = { char, untilMs: atMs + END_MS }
    return
  }
  draft.heldKey = undefined
  if (draft.burst && !draft.burst.framed && atMs - draft.burst.lastMs > GAP_MS) release(draft, atMs)
  draft.burst = addChar(draft.burst ?? openBurst(atMs, false), char, atMs)
  if (!isHeldKey(draft.burst)) return
  release(draft, atMs)
  draft.heldKey = { char, untilMs: atMs + END_MS }
}

function takeControl(draft: Draft, char: string, atMs: number): void {
  const { burst } = draft
  if (char === '\r' || char === '\n' || char === '\t') return takeEnding(draft, char, atMs)
  if (char === '\x02' && !burst?.framed) {
    release(draft, atMs)
    draft.burst = openBurst(atMs, true)
    return
  }
  if (char === '\x03' && burst?.framed) {
    draft.burst = undefined
    draft.endingUntilMs = atMs + GAP_MS
    if (burst.chars > 0) scanned(draft, burst, atMs)
    return
  }
  // Nothing typed by hand stands in the way of ctrl-c.
  if (char === '\x03' && burst && !isFast(burst)) release(draft, atMs)
  const key = controlKey(char)
  // Scanners send separators inside a code. Backspace is a person's, and may repeat for as long as it is held.
  if (draft.burst && key !== 'backspace') draft.burst = { ...draft.burst, lastMs: atMs }
  if (key !== undefined) takeKey(draft, { key })
}

function takeEnding(draft: Draft, char: string, atMs: number): void {
  const { burst } = draft
  const token: Token = { key: char === '\t' ? 'tab' : 'enter' }
  const isSecondHalf = char === '\n' && atMs <= draft.lineFeedUntilMs
  const isAfterFrame = atMs <= draft.endingUntilMs
  const isOfPaste = atMs === draft.endingUntilMs
  draft.lineFeedUntilMs = char === '\r' ? atMs + END_MS : -Infinity
  draft.endingUntilMs = isOfPaste ? atMs : -Infinity
  if (isSecondHalf || (isAfterFrame && !burst)) return
  if (burst && !burst.framed && isFast(burst)) {
    draft.burst = undefined
    scanned(draft, burst, atMs)
    return
  }
  if (burst && !burst.framed) {
    release(draft, atMs)
    // Nobody types a letter and Enter at once: it is text put in, whose line end must not confirm what the letter began.
    if (burst.lastMs === atMs) {
      draft.endingUntilMs = atMs
      return
    }
  }
  takeKey(draft, token)
}

function release(draft: Draft, atMs: number): void {
  const { burst } = draft
  draft.burst = undefined
  if (!burst) return
  const last = burst.tokens.at(-1)
  // A scanner set to STX in front and a line end behind, with no ETX.
  const isLineEnded = last !== undefined && 'key' in last && (last.key === 'enter' || last.key === 'tab')
  if (burst.framed && isFast(burst) && isLineEnded) scanned(draft, burst, atMs)
  else draft.tokens.push(...releaseBurst(burst))
}

function scanned(draft: Draft, burst: Burst, atMs: number): void {
  if (isTooLong(burst)) {
    draft.tokens.push({ scan: '', tooLong: true })
    return
  }
  const code = burstCode(burst, draft.prefix)
  const isAgain = draft.lastScan?.code === code && atMs - draft.lastScan.atMs <= AGAIN_MS
  draft.lastScan = { code, atMs }
  draft.tokens.push(isAgain ? { scan: code, again: true } : { scan: code })
}
