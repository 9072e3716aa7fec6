// The baseline of the board: the smallest Ink program that shows a line and answers a key, bundled by the same settings.
import { useState, type ReactElement } from 'react'
import { render, Text, useInput } from 'ink'

function Hello(): ReactElement {
  const [pressed, setPressed] = useState(0)
  useInput(() => setPressed((count) => count + 1))
  return <Text>{`Hello ${pressed}.`}</Text>
}

render(<Hello />)
