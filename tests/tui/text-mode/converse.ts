// The board in lines of text on a station in memory: lines typed go in, lines heard come out; it must never fake a part.
import { PassThrough } from 'node:stream'
import type { Command } from '../../../src/domain/commands.ts'
import { openSession } from '../../../src/session.ts'
import { runText } from '../../../src/tui/text-mode/run-text.ts'
import type { Standing } from '../bench.ts'
import { planNow } from '../plan-now.ts'
import { keptInMemory } from '../kept-in-memory.ts'

/** Types these lines as a pipe does, all at once, and gives what was heard and what was recorded. */
export const converse = (standing: Standing & { stopped?: string }, ...typed: string[]) =>
  converseBy(standing, typed.map((line) => `${line}\n`).join(''))

/** The same with the input as it is, and with what the scanners put before a code. */
export async function converseBy(
  { state, at, stopped }: Standing & { stopped?: string },
  input: string,
  scanPrefix = '',
) {
  const commands: Command[] = []
  const real = openSession(keptInMemory(state, stopped), () => Date.parse(at))
  const session: typeof real = {
    ...real,
    get state() {
      return real.state
    },
    get stopped() {
      return real.stopped
    },
    submit: async (command) => {
      const answer = await real.submit(command)
      if ('accepted' in answer) commands.push(command)
      return answer
    },
  }
  const stdin = new PassThrough()
  const stdout = new PassThrough()
  let text = ''
  stdout.on('data', (piece: Buffer) => (text += piece.toString('utf8')))
  const desk = {
    newest: () => [],
    card: (id: string) => [`Card of ${id}`],
    exportLog: (format: string) => Promise.resolve({ path: `exports/log.${format}` }),
    plan: () => ({ answer: planNow(real.state, at), giveUp: () => undefined }),
  }
  const running = runText({ session, desk, stdin, stdout, scanPrefix })
  stdin.end(input)
  await running
  return { text, heard: text.split('\n'), commands, state: real.state }
}
