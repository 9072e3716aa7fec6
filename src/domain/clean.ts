// Makes any text safe to show and to keep; it must never change what the letters say.

/** Controls (C0, DEL, C1), line separators, bidirectional controls, invisible marks and lone surrogates. */
const UNSAFE =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u200b\u200e\u200f\u2028-\u202e\u2060\u2066-\u2069\ufeff]|\p{Surrogate}/gu

/** A whole escape sequence goes, not only its first byte: what is left of one reads as rubbish. */
const ESCAPE_SEQUENCE =
  /(?:\u001b\[|\u009b)[0-?]*[ -/]*[@-~]|\u001b\][^\u0007\u001b]*(?:\u0007|\u001b\\)?|\u001b[@-Z\\-_]/g

/** Words of plain letters with single spaces between them, as most texts are: nothing to take out. */
const CLEAN = /^(?:[!-~]+(?: [!-~]+)*)?$/

/** Names, notes and reasons: one line, no controls, single spaces. `'a\tb\u001b[2Jc'` gives `'a bc'`. */
export const cleanText = (text: string): string =>
  CLEAN.test(text)
    ? text
    : text
        .replace(ESCAPE_SEQUENCE, '')
        .replace(/[\t-\r\u0085\u2028\u2029]+/g, ' ')
        .replace(UNSAFE, '')
        .replace(/ {2,}/g, ' ')
        .trim()
