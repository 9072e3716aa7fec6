// Runs a part of the program that is built as one script, from what V8 made of it when it was built; bundled into what loads the part. Code that is not of this very script must never run.
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { fileURLToPath } from 'node:url'
import { Script } from 'node:vm'

const SUM_BYTES = 32

/** What code was made by. V8 asks for neither the make of the machine nor for what Node has mended in V8. */
const MAKER = `${process.version} ${process.platform} ${process.arch}\n`

/** V8 looks at no more than the length of a script before it takes code for it. */
export const sumOf = (source, code, maker = MAKER) =>
  createHash('sha256').update(maker).update(source).update(code).digest()

/** Undefined where there is none or it is of another script or Node: V8 then reads the script itself, which takes longer. */
function codeFor(source, path) {
  let kept
  try {
    kept = readFileSync(path)
  } catch {
    return undefined
  }
  const code = kept.subarray(SUM_BYTES)
  return kept.subarray(0, SUM_BYTES).equals(sumOf(source, code)) ? code : undefined
}

/**
 * `here` is the address of the module that loads the script, which stands beside it with its code; `load` loads a part of the
 * program for the script, since only a module may say `import()`.
 */
export function runScript(name, here, load) {
  const path = fileURLToPath(new URL(`./${name}.cjs`, here))
  const source = readFileSync(path)
  const cachedData = codeFor(source, path.replace(/cjs$/, 'code'))
  const script = new Script(source.toString('latin1'), { filename: path, cachedData })
  const module = { exports: {} }
  script.runInThisContext()(module.exports, createRequire(here), module, here, load)
  return { exports: module.exports, path, script, source }
}
