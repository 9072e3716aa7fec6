// Screens drawn at a chosen size, as the golden screens of the board are.
import { Box, Text, useInput, useStdout } from 'ink'
import { expect, it } from 'vitest'
import { renderStatic } from './render-static.ts'

function Card() {
  const { stdout } = useStdout()
  useInput(() => {})
  return (
    <Box borderStyle="round" width={stdout.columns} height={stdout.rows - 1}>
      <Text color="red">
        {stdout.columns}x{stdout.rows}
      </Text>
    </Box>
  )
}

function Broken(): never {
  throw new Error('broken drawing')
}

it('draws a node at the columns and rows asked for, without a terminal', () => {
  expect(renderStatic(<Card />, { columns: 12, rows: 4 })).toEqual([
    '╭──────────╮',
    '│12x4      │',
    '╰──────────╯',
  ])
  expect(renderStatic(<Card />, { columns: 200, rows: 60 })).toHaveLength(59)
})

it('keeps colours when asked to, whatever this process was started with', () => {
  expect(renderStatic(<Text color="red">no</Text>, { columns: 9, rows: 2 }, 'ansi')).toEqual([
    '\x1b[31mno\x1b[39m',
  ])
  expect(renderStatic(<Text color="red">no</Text>, { columns: 9, rows: 2 })).toEqual(['no'])
})

it('cuts at the rows, and cleans text that Ink lets through', () => {
  expect(renderStatic(<Text>{'a\nb\nc'}</Text>, { columns: 9, rows: 2 })).toEqual(['a', 'b'])
  expect(renderStatic(<Text>{'a\x07b\x1b]8;;http://a.invalid\x07c'}</Text>, { columns: 9, rows: 2 })).toEqual(
    ['abc'],
  )
})

it('throws what the node throws', () => {
  expect(() => renderStatic(<Broken />, { columns: 9, rows: 2 })).toThrow('broken drawing')
})
