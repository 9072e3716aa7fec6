// Puts the board's loop on a real terminal and keeps it going until it is left. It must never decide anything.
import type { Session } from '../session.ts'
import { App } from './app.tsx'
import { startLoop, type Desk } from './board-loop.ts'
import type { Abilities } from './terminal/abilities.ts'
import { mountBoard } from './terminal/mount-board.ts'

export type { Desk } from './board-loop.ts'

interface Running {
  session: Session
  desk: Desk
  stdin: NodeJS.ReadStream
  stdout: NodeJS.WriteStream & { fd: number }
  abilities: Abilities
}

/** Two terminals see each other's work within a second. */
const LOOK_EVERY_MS = 1_000

export async function runBoard({ session, desk, stdin, stdout, abilities }: Running): Promise<void> {
  const loop = startLoop({
    session,
    desk,
    unicode: abilities.unicode,
    size: () => ({ columns: stdout.columns || 80, rows: stdout.rows || 24 }),
    leave: () => board.unmount(),
  })
  const board = mountBoard({
    stdin,
    stdout,
    colour: abilities.colour,
    node: (size) => <App glass={loop.glass} size={size} />,
    onToken: loop.take,
  })
  void session.begin()
  const looking = setInterval(loop.look, LOOK_EVERY_MS)
  try {
    await board.finished
  } finally {
    clearInterval(looking)
    // What was begun is recorded whole before the station is closed.
    await loop.settled()
    await session.close()
  }
}
