// Puts lines on the glass, one Text a row; it must never wrap or measure.
import { Box, Text } from 'ink'
import type { ReactElement } from 'react'

export function Lines({ lines }: { lines: readonly string[] }): ReactElement {
  return (
    <Box flexDirection="column">
      {lines.map((line, row) => (
        // Rows are places on the glass: the row is the identity.
        // oxlint-disable-next-line react/no-array-index-key
        <Text key={row} wrap="truncate">
          {line || ' '}
        </Text>
      ))}
    </Box>
  )
}
