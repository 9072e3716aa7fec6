// The board on the glass follows its session: what is recorded shows, and nothing else makes it draw again.
import { render } from 'ink-testing-library'
import { expect, test } from 'vitest'
import { openSession } from '../../src/session.ts'
import { App, type Drawn } from '../../src/tui/app.tsx'
import { composeLine } from '../../src/tui/compose.ts'
import { linesFor } from '../../src/tui/screens.ts'
import { startUi } from '../../src/tui/ui-state.ts'
import { viewOf } from '../../src/tui/view.ts'
import { fitEngine } from './stations.ts'
import { SMALL } from './bench.ts'
import { keptInMemory } from './kept-in-memory.ts'

test('a tag that is recorded shows at once, and a refusal changes nothing', async () => {
  const { state, at } = fitEngine()
  const session = openSession(keptInMemory(state), () => Date.parse(at))
  const make = () => {
    const facts = { state: session.state, at, stopped: session.stopped, unicode: true, size: SMALL }
    return { view: viewOf(facts, startUi), ui: startUi }
  }
  let shown = make()
  const drawn: Drawn = {
    lines: (size) => linesFor(shown.view, shown.ui, size).map(composeLine),
    read: () => shown,
    watch: (changed) =>
      session.watch(() => {
        shown = make()
        changed()
      }),
  }
  const { lastFrame, unmount } = render(<App drawn={drawn} size={SMALL} />)
  const before = lastFrame()
  expect(before).toContain('Everybody seated may ride and every rig can.')

  const refused = await session.submit({ do: 'lift-tag', by: 'M-104', element: 'HE-1', basis: 'none' })
  expect(refused).toHaveProperty('refused')
  expect(lastFrame()).toBe(before)

  await session.submit({ do: 'tag', by: 'M-104', element: 'HE-1', reason: 'cracked', matter: 'safety' })
  await expect.poll(() => lastFrame()).toContain('1 may not ride: A. Varga; 1 unfilled.')
  expect(lastFrame()).toContain('Helmet HE-1: tagged, cracked.')
  unmount()
  await session.close()
})
