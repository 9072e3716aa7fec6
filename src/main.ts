#!/usr/bin/env node
// Wires the command line to the process: arguments, environment, clock, exit status. It must hold no behaviour of its own.
import { asksForBoard } from './cli/asks-for-board.ts'
import type { World } from './cli/world.ts'
import { whyOf } from './store/trouble.ts'

// A reader that closes early (a pipe to head) has read what it wanted.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0)
  const sentence = `The output cannot be written: ${whyOf(error)}. Everything that was accepted is in the journal.`
  process.stderr.write(`bayboard: ${sentence}\n`)
  process.exit(3)
})
// A file at its size limit is an error that the store tells of. Unheard, this signal would end the program.
process.on('SIGXFSZ', () => undefined)
// Where nobody reads the complaints there is nobody to tell.
process.stderr.on('error', () => undefined)

const argv = process.argv.slice(2)
const world: World = {
  stdin: process.stdin,
  stdout: process.stdout,
  stderr: process.stderr,
  env: process.env,
  clock: Date.now,
  get zone() {
    return Intl.DateTimeFormat().resolvedOptions().timeZone || 'UTC'
  },
  data: new URL('../data/', import.meta.url),
}

try {
  // Opening the board is what is waited for, so it does not read the other subcommands first.
  const asked = asksForBoard(argv)
  process.exitCode = asked
    ? await (await import('./cli/board.ts')).board(world, asked)
    : await (await import('./cli/program.ts')).runProgram(argv, world)
} catch (error) {
  const what = error instanceof Error ? error.message : String(error)
  process.stderr.write(
    `bayboard: Something went wrong that this program did not foresee: ${what}\n` +
      'Everything that was accepted is in the journal. Start again; if it happens again, run "bayboard verify" and report this line.\n',
  )
  process.exitCode = 3
}
