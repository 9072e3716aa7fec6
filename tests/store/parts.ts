// The program's parts that run in threads, as they are built, and such as come to grief.
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { builtProgram } from '../built-program.ts'
import { newFolder } from './station-folder.ts'

export const builtPart = (name: string): URL => pathToFileURL(join(builtProgram(), 'dist', `${name}.js`))

export const NO_SUCH_PART = new URL('./no-such-part.js', import.meta.url)
/** Making a thread of it throws, as it does where the system has no more threads to give. */
export const NO_THREAD_AT_ALL = new URL('https://station.example/part.js')

/** A part of the program that is stopped in the middle of its work, with nothing put in order, at one of its calls. */
export function partThatDies(name: string, at: { notify: number } | { read: number }): URL {
  const path = join(newFolder(), `${name}.mjs`)
  const dies = (calls: number) => `(...args) => (++calls > ${calls} ? process.exit() : was(...args))`
  const [change, from] =
    'notify' in at
      ? [`Atomics.notify = ${dies(at.notify)}`, 'Atomics.notify']
      : [`fs.readSync = ${dies(at.read)}\nsyncBuiltinESMExports()`, 'fs.readSync']
  writeFileSync(
    path,
    `import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
let calls = 0
const was = ${from}
${change}
await import(${JSON.stringify(builtPart(name).href)})
`,
  )
  return pathToFileURL(path)
}
