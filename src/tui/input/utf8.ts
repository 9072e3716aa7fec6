// Assembles UTF-8 that arrives in pieces; it must never let an invalid byte through as a character.

const decoder = new TextDecoder('utf-8', { ignoreBOM: true })

/** Text of `rest` and `bytes` together, and the bytes of a last character that is not yet whole. */
export function decodePiece(rest: Uint8Array, bytes: Uint8Array): { text: string; rest: Uint8Array } {
  const all = new Uint8Array(rest.length + bytes.length)
  all.set(rest)
  all.set(bytes, rest.length)
  const whole = all.length - unfinished(all)
  // A decoder marks an invalid byte with U+FFFD; a keyboard has no use for that character itself.
  const text = decoder.decode(all.subarray(0, whole)).replaceAll('\ufffd', '')
  return { text, rest: all.slice(whole) }
}

function unfinished(bytes: Uint8Array): number {
  for (let back = 1; back <= Math.min(3, bytes.length); back++) {
    const byte = bytes[bytes.length - back] ?? 0
    if (byte >= 0x80 && byte < 0xc0) continue
    const needs =
      byte >= 0xf0 && byte < 0xf5 ? 4 : byte >= 0xe0 && byte < 0xf0 ? 3 : byte >= 0xc2 && byte < 0xe0 ? 2 : 1
    return needs > back ? back : 0
  }
  return 0
}
