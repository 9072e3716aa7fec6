// Puts the board's loop on a real terminal and keeps it going until it is left. It must never decide anything.
import { instantToMs } from '../domain/time.ts'
import type { Session } from '../session.ts'
import { startLoop } from './board-loop.ts'
import { composeLine } from './compose.ts'
import type { Desk } from './desk.ts'
import { keepLooking, type Heed } from './looking.ts'
import type { Size } from './panels/frame.ts'
import { linesFor } from './screens.ts'
import type { Abilities } from './terminal/abilities.ts'
import { mountBoard } from './terminal/mount-board.ts'
import { believe } from './view.ts'

export type { Desk } from './desk.ts'

interface Running {
  session: Session
  desk: Desk
  heed: Heed
  stdin: NodeJS.ReadStream
  stdout: NodeJS.WriteStream & { fd: number }
  abilities: Abilities
  /** What the scanners of this station put before a code. */
  scanPrefix: string
}

export async function runBoard({
  session,
  desk,
  heed,
  stdin,
  stdout,
  abilities,
  scanPrefix,
}: Running): Promise<void> {
  if (session.found) believe(session.found, session.state, session.now())
  const loop = startLoop({
    session,
    desk,
    unicode: abilities.unicode,
    size: () => ({ columns: stdout.columns || 80, rows: stdout.rows || 24 }),
    leave: () => board.unmount(),
  })
  const lines = (size: Size): string[] => {
    const { view, ui } = loop.glass.read()
    return linesFor(view, ui, size).map(composeLine)
  }
  const board = mountBoard({
    stdin,
    stdout,
    colour: abilities.colour,
    // The first frame does not wait for Ink; what Ink lays out afterwards is the same to the byte.
    ahead: { frame: (size) => lines(size).join('\n'), watch: loop.glass.watch },
    load: async () => (await import('./app.tsx')).drawApp({ ...loop.glass, lines }),
    onToken: loop.take,
    scanPrefix,
  })
  setImmediate(loop.judge)
  void session.begin()
  const stopLooking = keepLooking({
    look: loop.look,
    nowMs: () => instantToMs(session.now())!,
    heed,
  })
  try {
    await board.finished
  } finally {
    stopLooking()
    // What was begun is recorded whole before the station is closed.
    await loop.settled()
    await session.close()
  }
}
