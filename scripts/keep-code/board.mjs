// Opens the board once on the demonstration, with nobody at it, and keeps what V8 has compiled by then beside the script. Run by the build.
import { openSync } from 'node:fs'
import { devNull } from 'node:os'
import { resolve } from 'node:path'
import { PassThrough, Writable } from 'node:stream'
import { setTimeout as sleep } from 'node:timers/promises'
import { pathToFileURL } from 'node:url'
import { keepCode, loadScript } from './keep.mjs'

const [folder, station] = process.argv.slice(2)
const loaded = loadScript('board', folder)
const { exports } = loaded

const [UP, DOWN, ESCAPE] = ['\x1b[A', '\x1b[B', '\x1b']
let painted = 0
const glass = () =>
  Object.assign(
    new Writable({
      write(bytes, _encoding, done) {
        painted += bytes.length
        done()
      },
    }),
    { isTTY: true, columns: 120, rows: 40, fd: openSync(devNull, 'w') },
  )
/** What happens on a slow machine takes longer; the build gives up on what never happens. */
const until = async (isSo) => {
  while (!isSo()) await sleep(20)
}
const keys = Object.assign(new PassThrough(), { isTTY: true, fd: 0, setRawMode: () => keys })
const world = {
  stdin: keys,
  stdout: glass(),
  // Why it could not be opened is heard by whoever builds.
  stderr: { isTTY: false, write: (text) => process.stderr.write(text) },
  env: { TERM: 'xterm-256color', LANG: 'C.UTF-8', HOME: station },
  clock: Date.now,
  zone: 'UTC',
  data: pathToFileURL(`${resolve('data')}/`),
}

async function open() {
  painted = 0
  const opened = exports.board(world, { station })
  await Promise.race([opened, until(() => painted > 0)])
  for (const key of [DOWN, UP, '?', ESCAPE, 'q']) {
    keys.write(key)
    await sleep(100)
  }
  if ((await opened) !== 0 || !painted)
    throw new Error('The board that was opened to keep its code painted nothing.')
}

await exports.demo(world, station, { open: false })
// The first opening leaves a snapshot, the second one reads it: that is what most openings do.
await open()
await open()
await keepCode(loaded)
process.exit(0)
