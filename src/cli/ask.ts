// Asks one thing at a time on a terminal, in plain lines; it must never ask where nobody can answer.
import { createInterface } from 'node:readline'
import type { World } from './world.ts'

/** Only where questions are seen and answers typed: never in a pipe or a script. */
export const canAsk = (world: World): boolean => world.stdin.isTTY && world.stderr.isTTY

/** The line that was typed, trimmed; nothing when the input ended or was broken off. */
export function ask(world: World, question: string): Promise<string> {
  const lines = createInterface({ input: world.stdin, output: world.stderr })
  return new Promise((resolve) => {
    lines.once('close', () => resolve(''))
    lines.question(question, (answer) => {
      resolve(answer.trim())
      lines.close()
    })
  })
}

/** Nobody is presumed to have done what they did not say: who it was is asked on a terminal, and else unknown. */
export const askName = async (world: World): Promise<string | undefined> =>
  canAsk(world)
    ? (await ask(world, 'Who answers for it? Write the id of a member: ')) || undefined
    : undefined
