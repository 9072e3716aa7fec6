// The station's private keys, one file each in keys/, for their owner's eyes only; it must never put one anywhere else.
import { createPrivateKey, generateKeyPairSync } from 'node:crypto'
import { join } from 'node:path'
import { makeFolderToStay, placeFile, readWhole, type Files } from '../files.ts'
import { codeOf } from '../trouble.ts'
import { parseVkey, rawOf, signatureOf, vkeyOf, type SigningKey } from './note.ts'

export const KEYS = 'keys'

/** `keys/1a2b3c4d.pem`, by the id that signatures carry. */
export const keyFile = (vkey: string): string => `${parseVkey(vkey)?.id.toString('hex')}.pem`

/** A new key whose private half is on disk before anybody hears of the public one. */
export const makeKey = (files: Files, folder: string, name: string): SigningKey => {
  const { privateKey } = generateKeyPairSync('ed25519')
  const vkey = vkeyOf(name, rawOf(privateKey))
  const place = join(folder, KEYS)
  makeFolderToStay(files, place)
  const pem = privateKey.export({ type: 'pkcs8', format: 'pem' })
  placeFile(files, place, keyFile(vkey), Buffer.from(pem), 'secret')
  return { vkey, privateKey }
}

/** The private half of a public key; undefined where it is not there, or is another's. */
export const signingKey = (files: Files, folder: string, vkey: string): SigningKey | undefined => {
  let pem: Buffer
  try {
    pem = readWhole(files, join(folder, KEYS, keyFile(vkey)))
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return undefined
    throw error
  }
  try {
    const privateKey = createPrivateKey(pem)
    const raw = parseVkey(vkey)?.raw
    return raw !== undefined && rawOf(privateKey).equals(raw) ? { vkey, privateKey } : undefined
  } catch {
    return undefined
  }
}

/** What an old key signs to vouch for the one that takes its place. */
export const vouchText = (vkey: string): string => `bayboard key\n${vkey}\n`

export const vouchFor = (vkey: string, old: SigningKey): string => signatureOf(vouchText(vkey), old)
