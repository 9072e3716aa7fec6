#!/usr/bin/env node
// Wires the command line to the process: arguments, environment, clock, exit status. It must hold no behaviour of its own.
import { runProgram } from './cli/program.ts'
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

try {
  process.exitCode = await runProgram(process.argv.slice(2), {
    stdin: process.stdin,
    stdout: process.stdout,
    stderr: process.stderr,
    env: process.env,
    clock: Date.now,
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone || 'UTC',
    data: new URL('../data/', import.meta.url),
  })
} catch (error) {
  const what = error instanceof Error ? error.message : String(error)
  process.stderr.write(
    `bayboard: Something went wrong that this program did not foresee: ${what}\n` +
      'Everything that was accepted is in the journal. Start again; if it happens again, run "bayboard verify" and report this line.\n',
  )
  process.exitCode = 3
}
