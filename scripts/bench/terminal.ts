// A program on a real pseudo-terminal, timed from the byte that goes in to the byte that comes out; it must never read the screen's meaning.
import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type * as NodePty from '@lydell/node-pty'

export interface OpenTerminal {
  pid: number
  /** Milliseconds from starting the program to its first whole frame. */
  firstFrameMs: number
  /** Sends keys and waits for the next whole frame. */
  press(keys: string): Promise<{ ms: number; bytes: number }>
  /** Sends without waiting. */
  send(keys: string): void
  /** Bytes written so far. */
  bytes(): number
  close(): Promise<void>
}

const LONGEST_WAIT_MS = 60_000

export interface Program {
  args: readonly string[]
  /** Where the project's own node_modules are. */
  root: string
  env?: Readonly<Record<string, string>>
  columns: number
  rows: number
  /** Does what was written since the last key end with a whole frame? */
  isFrame: (written: string) => boolean
}

/** The board paints within synchronised updates; its first bytes end one that an earlier run may have left. */
export const isBoardFrame = (written: string): boolean => {
  const begun = written.lastIndexOf('\x1b[?2026h')
  return begun !== -1 && written.includes('\x1b[?2026l', begun)
}
export const isHelloFrame = (written: string): boolean => /Hello \d+\./.test(written)

export async function openTerminal({ args, root, env = {}, columns, rows, isFrame }: Program) {
  const pty = createRequire(`${root}/package.json`)('@lydell/node-pty') as typeof NodePty
  let written = ''
  let bytes = 0
  let arrived: (() => void) | undefined
  const started = performance.now()
  const child = pty.spawn(process.execPath, [...args], {
    name: 'xterm-256color',
    cols: columns,
    rows,
    env: { ...plainEnvironment(), ...env },
  })
  const exit = new Promise<void>((resolve) => child.onExit(() => resolve()))
  child.onData((data) => {
    written += data
    bytes += Buffer.byteLength(data)
    if (isFrame(written)) arrived?.()
  })
  const frame = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const timer = setTimeout(
        () =>
          reject(
            new Error(
              `No frame within ${LONGEST_WAIT_MS} ms. Written: ${JSON.stringify(written.slice(-400))}`,
            ),
          ),
        LONGEST_WAIT_MS,
      )
      arrived = () => {
        clearTimeout(timer)
        arrived = undefined
        resolve()
      }
    })
  await frame()
  const firstFrameMs = performance.now() - started
  const terminal: OpenTerminal = {
    pid: child.pid,
    firstFrameMs,
    async press(keys) {
      written = ''
      const before = bytes
      const next = frame()
      const at = performance.now()
      child.write(keys)
      await next
      return { ms: performance.now() - at, bytes: bytes - before }
    },
    send: (keys) => child.write(keys),
    bytes: () => bytes,
    async close() {
      child.kill('SIGKILL')
      await exit
    },
  }
  return terminal
}

/** Under CI Ink draws nothing until its end. */
function plainEnvironment(): Record<string, string> {
  const left = ['CI', 'CONTINUOUS_INTEGRATION', 'NO_COLOR', 'FORCE_COLOR', 'BAYBOARD_STATION', 'LC_ALL']
  return Object.fromEntries(
    Object.entries({ ...process.env, LANG: 'C.UTF-8' }).flatMap(([name, value]) =>
      value === undefined || left.includes(name) ? [] : [[name, value]],
    ),
  )
}

/** What the kernel has counted of a running process. */
export function countedOf(pid: number): { peakKb: number; cpuMs: number; wakes: number } {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8')
  const number = (name: string): number => Number(new RegExp(`^${name}:\\s*(\\d+)`, 'm').exec(status)![1])
  const ticks = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ')
  // Fields 14 and 15 of proc(5), user and system time in hundredths of a second.
  const cpuMs = (Number(ticks[11]) + Number(ticks[12])) * 10
  const threads = readdirSync(`/proc/${pid}/task`).map((id) =>
    readFileSync(`/proc/${pid}/task/${id}/status`, 'utf8'),
  )
  const wakes = threads.reduce(
    (sum, thread) => sum + Number(/^voluntary_ctxt_switches:\s*(\d+)/m.exec(thread)![1]),
    0,
  )
  return { peakKb: number('VmHWM'), cpuMs, wakes }
}
