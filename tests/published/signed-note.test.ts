// Ed25519 and signed notes against what others published: RFC 8032, the signed-note specification, the Go reference and a second library.
import { createPrivateKey, createPublicKey } from 'node:crypto'
import { ed25519 } from '@noble/curves/ed25519.js'
import { describe, expect, it } from 'vitest'
import {
  isSignedBy,
  openNote,
  parseNote,
  parseVkey,
  rawOf,
  signatureOf,
  signNote,
  vkeyOf,
  type SigningKey,
} from '../../src/store/seals/note.ts'

/** An Ed25519 key from its 32 secret bytes, by the fixed head of PKCS 8 (RFC 8410). */
const keyFrom = (secret: Buffer, name: string): SigningKey => {
  const der = Buffer.concat([Buffer.from('302e020100300506032b657004220420', 'hex'), secret])
  const privateKey = createPrivateKey({ key: der, format: 'der', type: 'pkcs8' })
  return { privateKey, vkey: vkeyOf(name, rawOf(privateKey)) }
}

// RFC 8032, section 7.1: secret key, public key, message, signature. Tests 1 to 3.
const RFC_8032 = [
  [
    '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    '',
    'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  ],
  [
    '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    '72',
    '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  ],
  [
    'c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7',
    'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    'af82',
    '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  ],
] as const

describe('Ed25519, RFC 8032 section 7.1', () => {
  it.each(RFC_8032)('secret %s', (secret, publicKey, message, signature) => {
    const key = keyFrom(Buffer.from(secret, 'hex'), 'rfc8032.example')
    expect(parseVkey(key.vkey)?.raw.toString('hex')).toBe(publicKey)
    const signed = Buffer.from(signatureOf(Buffer.from(message, 'hex'), key), 'base64')
    expect(signed.subarray(4).toString('hex')).toBe(signature)
    const point = Buffer.from(publicKey, 'hex')
    expect(ed25519.verify(Buffer.from(signature, 'hex'), Buffer.from(message, 'hex'), point)).toBe(true)
  })

  it('gives the signatures that a second library gives, and takes those it makes', () => {
    for (let round = 0; round < 20; round++) {
      const secret = ed25519.utils.randomSecretKey()
      const key = keyFrom(Buffer.from(secret), 'second.example/library')
      const text = `round ${round}\n`
      const bytes = Buffer.from(signatureOf(text, key), 'base64')
      const theirs = ed25519.sign(Buffer.from(text), secret)
      expect(bytes.subarray(4).equals(theirs)).toBe(true)
      expect(Buffer.from(ed25519.getPublicKey(secret)).equals(parseVkey(key.vkey)!.raw)).toBe(true)
    }
  })
})

// The documentation and tests of golang.org/x/mod/sumdb/note, the reference implementation that the specification came from.
const GO = {
  vkey: 'PeterNeumann+c74f20a3+ARpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TW',
  secret: 'AYEKFALVFGyNhPJEMzD1QIDr+Y7hfZx09iUvxdXHKDFz',
  text: "If you think cryptography is the answer to your problem,\nthen you don't know what your problem is.\n",
  signature: 'x08go/ZJkuBS9UG/SffcvIAQxVBtiFupLLr8pAcElZInNIuGUgYN1FFYC2pZSNXgKvqfqdngotpRZb6KE6RyyBwJnAM=',
}
const GO_NOTE = `${GO.text}\n— PeterNeumann ${GO.signature}\n`

describe('signed notes, the example of the Go reference', () => {
  it('has that key id, is opened by that key, and is signed to the same bytes', () => {
    expect(parseVkey(GO.vkey)?.id.toString('hex')).toBe('c74f20a3')
    expect(openNote(GO_NOTE, [GO.vkey])).toEqual({ kind: 'signed', text: GO.text, vkey: GO.vkey })
    const key = keyFrom(Buffer.from(GO.secret, 'base64').subarray(1), 'PeterNeumann')
    expect(key.vkey).toBe(GO.vkey)
    expect(signNote(GO.text, key)).toBe(GO_NOTE)
    expect(isSignedBy(GO.text, GO.signature, GO.vkey)).toBe(true)
  })

  // Manglings of the key, after the reference's own test of them.
  it.each([
    ['the id left out', GO.vkey.replace('+c74f20a3', '')],
    ['another id', GO.vkey.replace('c74f20a3', 'c74f20a4')],
    ['another name', GO.vkey.replace('Peter', 'Pyter')],
    ['another algorithm', GO.vkey.replace('+ARpc', '+Anpc')],
    ['one byte less', GO.vkey.slice(0, -4)],
    ['no base64', GO.vkey.replace('ARpc', '!Rpc')],
    ['nothing', ''],
  ])('a key with %s is none', (_, vkey) => expect(parseVkey(vkey)).toBeUndefined())
})

describe('signed notes, c2sp.org/signed-note', () => {
  // The example of the specification. It publishes no key for it, so its parts are checked and not its signature.
  const EXAMPLE =
    'Ognuno sta solo sul cuor della terra\ntrafitto da un raggio di sole:\n\ned è subito sera.\n\n' +
    '— quasimodo.example/salvatore NnugSzTjtVAewIS+Z/iJhUPeFDkO/5QQ2i5ddnGITLlC+EhfLW9oJKONrMouFSQU0xMcXxj99ihAQwaqP3ZekRwNtIc=\n'

  it('the text ends before the last empty line and keeps its own empty line; the signature is 4 + 64 bytes', () => {
    const note = parseNote(EXAMPLE)
    expect(note?.text).toBe(EXAMPLE.slice(0, EXAMPLE.indexOf('\n\n—') + 1))
    expect(note?.signatures.map(({ name, id, signature }) => [name, id.length, signature.length])).toEqual([
      ['quasimodo.example/salvatore', 4, 64],
    ])
  })

  it.each([
    ['without its last newline', GO_NOTE.slice(0, -1)],
    ['with a control character', GO_NOTE.replace('think', 'thi\u0007nk')],
    ['with a lone surrogate', GO_NOTE.replace('think', 'thi\ud800nk')],
    ['without a signature', `${GO.text}\n`],
    ['without the empty line', GO_NOTE.replace('\n\n', '\n')],
    ['with a hyphen for the dash', GO_NOTE.replace('—', '-')],
    ['with two spaces', GO_NOTE.replace('Neumann x', 'Neumann  x')],
    ['with base64 that says the same in another way', GO_NOTE.replace('nAM=', 'nAN=')],
    ['with more than a hundred signatures', GO_NOTE + `— a ${GO.signature}\n`.repeat(100)],
  ])('a note %s is none', (_, note) => expect(openNote(note, [GO.vkey])).toEqual({ kind: 'no-note' }))

  it('an unknown signer is ignored beside a known one and not enough alone', () => {
    const other = keyFrom(Buffer.alloc(32, 7), 'PeterNeumann')
    expect(openNote(GO_NOTE, [other.vkey])).toEqual({ kind: 'unknown-key' })
    const both = `${GO_NOTE}— PeterNeumann ${signatureOf(GO.text, other)}\n`
    expect(openNote(both, [GO.vkey])).toMatchObject({ kind: 'signed' })
  })

  it('a known signer whose signature fails spoils the note, whoever else has signed it', () => {
    const other = keyFrom(Buffer.alloc(32, 7), 'second.example')
    const spoiled = GO_NOTE.replace('answer', 'ansver')
    expect(openNote(spoiled, [GO.vkey])).toEqual({ kind: 'altered', vkey: GO.vkey })
    const text = parseNote(spoiled)!.text
    const both = `${spoiled}— second.example ${signatureOf(text, other)}\n`
    expect(openNote(both, [GO.vkey, other.vkey])).toEqual({ kind: 'altered', vkey: GO.vkey })
  })

  it('sixteen signatures at least are taken', () => {
    const keys = Array.from({ length: 16 }, (_, n) => keyFrom(Buffer.alloc(32, n + 1), `s${n}.example`))
    const lines = keys.map((key, n) => `— s${n}.example ${signatureOf(GO.text, key)}\n`)
    expect(
      openNote(
        `${GO.text}\n${lines.join('')}`,
        keys.map((key) => key.vkey),
      ),
    ).toMatchObject({ kind: 'signed' })
  })
})

it('the public half is that of the platform', () => {
  const { privateKey } = keyFrom(Buffer.alloc(32, 3), 'x')
  const der = createPublicKey(privateKey).export({ format: 'der', type: 'spki' })
  expect(rawOf(privateKey).equals(der.subarray(-32))).toBe(true)
})
