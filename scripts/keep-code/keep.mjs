// Keeps what V8 has compiled of a script by now beside it.
import { writeFile } from 'node:fs/promises'
import { sumOf } from '../run-script.mjs'

export async function keepCode({ path, script, source }) {
  const code = script.createCachedData()
  await writeFile(path.replace(/cjs$/, 'code'), Buffer.concat([sumOf(source, code), code]))
}
