// Puts lines on the glass, one Text a row; it must never wrap or measure.
import { Box, Text } from 'ink'
import type { ReactElement } from 'react'
import { COLOURS, type Line } from './theme.ts'

export function Lines({ lines }: { lines: readonly Line[] }): ReactElement {
  return (
    <Box flexDirection="column">
      {lines.map((line, row) => (
        // Rows are places on the glass: the row is the identity.
        // oxlint-disable-next-line react/no-array-index-key
        <Text key={row} wrap="truncate">
          {line.length === 0 ? ' ' : line.map((span, at) => <Piece key={`${row}.${at}`} span={span} />)}
        </Text>
      ))}
    </Box>
  )
}

function Piece({ span }: { span: Line[number] }): ReactElement {
  const colour = span.tone && COLOURS[span.tone]
  return (
    <Text
      {...(colour && { color: colour })}
      bold={span.bold ?? false}
      inverse={span.inverse ?? false}
      dimColor={span.dim ?? false}
    >
      {span.text}
    </Text>
  )
}
