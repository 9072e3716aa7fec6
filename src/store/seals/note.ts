// Signed notes as c2sp.org/signed-note has them, with Ed25519 keys; it must never give out a text that no trusted key has signed.
import { createPublicKey, sign, verify, type KeyObject } from 'node:crypto'
import { hashBytes } from '../line.ts'

/** `vkey` is the public key as text: `name+<8 hex of its id>+<base64 of 0x01 and the 32 bytes>`. */
export type SigningKey = { vkey: string; privateKey: KeyObject }

type PublicKey = { name: string; id: Buffer; raw: Buffer }

const ED25519 = 0x01
const RAW_BYTES = 32
const ID_BYTES = 4
const SIGNATURE_BYTES = 64
const DASH = '— '
const MOST_SIGNATURES = 100
const MOST_BYTES = 256 * 1024

/** The first four bytes of SHA-256(name || 0x0A || 0x01 || public key). */
const keyId = (name: string, raw: Buffer): Buffer =>
  hashBytes(Buffer.concat([Buffer.from(`${name}\n`), Buffer.of(ED25519), raw])).subarray(0, ID_BYTES)

const isName = (name: string): boolean => /^[^\s+\p{Cc}]+$/u.test(name)

export const rawOf = (key: KeyObject): Buffer =>
  Buffer.from(createPublicKey(key).export({ format: 'jwk' }).x ?? '', 'base64url')

export const vkeyOf = (name: string, raw: Buffer): string =>
  `${name}+${keyId(name, raw).toString('hex')}+${Buffer.concat([Buffer.of(ED25519), raw]).toString('base64')}`

/** Undefined for what is no Ed25519 key, and for one whose stated id is not its own. */
export const parseVkey = (vkey: string): PublicKey | undefined => {
  const [, name = '', id = '', encoded = ''] = /^([^+]+)\+([0-9a-f]{8})\+(.+)$/.exec(vkey) ?? []
  const bytes = strictBase64(encoded)
  if (!isName(name) || bytes?.length !== 1 + RAW_BYTES || bytes[0] !== ED25519) return undefined
  const raw = bytes.subarray(1)
  const own = keyId(name, raw)
  return own.toString('hex') === id ? { name, id: own, raw } : undefined
}

const strictBase64 = (text: string): Buffer | undefined => {
  const bytes = Buffer.from(text, 'base64')
  return bytes.toString('base64') === text ? bytes : undefined
}

/** A signature as it stands in a note: base64 of the key's id and what it made of the text. */
export const signatureOf = (text: string | Uint8Array, { vkey, privateKey }: SigningKey): string => {
  const id = parseVkey(vkey)?.id
  if (id === undefined) throw new TypeError('The key to sign with is not one of this kind.')
  return Buffer.concat([id, sign(null, Buffer.from(text), privateKey)]).toString('base64')
}

export const isSignedBy = (text: string, signature: string, vkey: string): boolean => {
  const key = parseVkey(vkey)
  const bytes = strictBase64(signature)
  if (!key || bytes?.length !== ID_BYTES + SIGNATURE_BYTES) return false
  return bytes.subarray(0, ID_BYTES).equals(key.id) && holds(text, bytes.subarray(ID_BYTES), key)
}

const holds = (text: string, signature: Buffer, { raw }: PublicKey): boolean => {
  const jwk = { kty: 'OKP', crv: 'Ed25519', x: raw.toString('base64url') }
  try {
    return verify(null, Buffer.from(text), createPublicKey({ key: jwk, format: 'jwk' }), signature)
  } catch {
    return false
  }
}

/** `text` ends with a newline and holds no other control character. */
export const signNote = (text: string, key: SigningKey): string =>
  `${text}\n${DASH}${parseVkey(key.vkey)?.name} ${signatureOf(text, key)}\n`

type NoteSignature = { name: string; id: Buffer; signature: Buffer }
export type Note = { text: string; signatures: NoteSignature[] }

/** The parts of a note, before anybody has checked a signature; undefined for what is no note. */
export const parseNote = (note: string): Note | undefined => {
  if (Buffer.byteLength(note) > MOST_BYTES || !note.endsWith('\n')) return undefined
  if (/[\u0000-\u0009\u000b-\u001f]|\p{Surrogate}/u.test(note)) return undefined
  const at = note.lastIndexOf('\n\n')
  if (at === -1) return undefined
  const lines = note.slice(at + 2, -1).split('\n')
  const signatures = lines.flatMap(signatureIn)
  if (signatures.length !== lines.length || lines.length > MOST_SIGNATURES) return undefined
  return { text: note.slice(0, at + 1), signatures }
}

const signatureIn = (line: string): NoteSignature[] => {
  if (!line.startsWith(DASH)) return []
  const [name = '', encoded = '', ...more] = line.slice(DASH.length).split(' ')
  const bytes = strictBase64(encoded)
  if (more.length > 0 || !isName(name) || bytes === undefined || bytes.length <= ID_BYTES) return []
  return [{ name, id: bytes.subarray(0, ID_BYTES), signature: bytes.subarray(ID_BYTES) }]
}

type NoteOpened =
  | { kind: 'signed'; text: string; vkey: string }
  | { kind: 'no-note' }
  /** By no key that is trusted. */
  | { kind: 'unknown-key' }
  /** A trusted key is named and what it signed is not this text. */
  | { kind: 'altered'; vkey: string }

/** The text, if a trusted key has signed it; a failing signature of a trusted key spoils the whole note. */
export const openNote = (note: string, trusted: readonly string[]): NoteOpened => {
  const parsed = parseNote(note)
  if (parsed === undefined) return { kind: 'no-note' }
  let signedBy: string | undefined
  for (const vkey of trusted) {
    const key = parseVkey(vkey)
    const own = parsed.signatures.find((each) => each.name === key?.name && each.id.equals(key.id))
    if (!key || !own) continue
    if (!holds(parsed.text, own.signature, key)) return { kind: 'altered', vkey }
    signedBy ??= vkey
  }
  return signedBy === undefined
    ? { kind: 'unknown-key' }
    : { kind: 'signed', text: parsed.text, vkey: signedBy }
}
