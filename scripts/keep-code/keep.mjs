// Loads a script of the program as it was built, and keeps what V8 has compiled of it by then beside it.
import { writeFile } from 'node:fs/promises'
import { resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { runScript, sumOf } from '../run-script.mjs'

export function loadScript(name, folder) {
  const here = pathToFileURL(resolve(folder, 'bayboard.js'))
  return runScript(name, here, (part) => import(new URL(part, here)))
}

export async function keepCode({ path, script, source }) {
  const code = script.createCachedData()
  await writeFile(path.replace(/cjs$/, 'code'), Buffer.concat([sumOf(source, code), code]))
}
