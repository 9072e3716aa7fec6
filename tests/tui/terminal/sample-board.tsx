// A board of nothing but its size and the tokens it was given, for the tests of the terminal layer; it must never be shipped.
import { Box, Text, useInput } from 'ink'
import { useSyncExternalStore } from 'react'
import type { Token } from '../../../src/tui/input/keys.ts'
import { drawWithInk } from '../../../src/tui/terminal/ink-stream.tsx'
import { mountBoard } from '../../../src/tui/terminal/mount-board.ts'

let tokens: readonly Token[] = []
let changed = () => {}

function Sample({ columns, rows }: { columns: number; rows: number }) {
  useInput(() => {})
  const seen = useSyncExternalStore(
    (onChange) => {
      changed = onChange
      return () => {}
    },
    () => tokens,
  )
  if (seen.some((token) => 'char' in token && token.char === 'x')) throw new Error('broken drawing')
  return (
    <Box flexDirection="column" height={rows - 1} width={columns}>
      <Text color="green">
        Sample {columns}x{rows}
      </Text>
      <Box flexGrow={1} />
      <Text>{seen.map((token) => JSON.stringify(token)).join(' ')}</Text>
    </Box>
  )
}

const board = mountBoard({
  stdin: process.stdin,
  stdout: process.stdout,
  colour: 'ansi',
  load: async () => (options) => drawWithInk({ ...options, node: (size) => <Sample {...size} /> }),
  onToken: (token) => {
    tokens = [...tokens, token].slice(-8)
    changed()
    if ('key' in token && token.key === 'ctrl-c') board.unmount()
    if (!('char' in token)) return
    if (token.char === 'q') board.unmount()
    if (token.char === 't') throw new Error('thrown')
    if (token.char === 'r') void Promise.reject(new Error('rejected'))
    if (token.char === 'k') process.kill(process.pid, 'SIGKILL')
    if (token.char === 'e') process.exit(7)
  },
})
await board.finished
process.stdout.write('after the board\n')
