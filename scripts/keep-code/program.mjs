// Asks the subcommands about the demonstration, and keeps the code that V8 made of them. Run by the build.
import { resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { keepCode, loadScript } from './keep.mjs'

const [folder, station] = process.argv.slice(2)
const loaded = loadScript('program', folder)

let told = 0
const hears = {
  isTTY: false,
  write: (text) => {
    told += text.length
    return true
  },
}
const world = {
  stdin: process.stdin,
  stdout: hears,
  // Why something could not be answered is heard by whoever builds.
  stderr: { isTTY: false, write: (text) => process.stderr.write(text) },
  env: { LANG: 'C.UTF-8', HOME: station },
  clock: Date.now,
  zone: 'UTC',
  data: pathToFileURL(`${resolve('data')}/`),
}

/** What is asked often, or waited for. */
const ASKED = [['verify'], ['status'], ['status', '--json'], ['history', 'E9-1']]
for (const asked of ASKED) {
  told = 0
  const status = await loaded.exports.runProgram([...asked, '--station', station], world)
  if (status > 1 || !told) throw new Error(`"${asked.join(' ')}" told nothing when asked to keep its code.`)
}
await keepCode(loaded)
process.exit(0)
