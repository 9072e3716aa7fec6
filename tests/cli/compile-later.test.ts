// That the start asks V8 for nothing that it would complain of on the screen.
import { spawnSync } from 'node:child_process'
import { describe, expect, it } from 'vitest'
import { compileLater } from '../../src/cli/compile-later.ts'

/** What is asked of V8 until a turn of the event loop has passed. */
const asked = async (v8: string): Promise<string[]> => {
  const flags: string[] = []
  compileLater(v8, (flag) => flags.push(flag))
  await new Promise((passed) => setImmediate(passed))
  return flags
}

describe('a start of the board', () => {
  it('says nothing about a switch that the V8 of this Node does not know', async () => {
    const set = (await asked(process.versions.v8)).map((flag) => `v8.setFlagsFromString('${flag}')`)
    const { stderr, status } = spawnSync(process.execPath, [
      '-e',
      `const v8 = require('v8');${set.join(';')}`,
    ])
    expect({ status, stderr: stderr.toString() }).toEqual({ status: 0, stderr: '' })
  })

  // From `node --v8-options`: 11.3 (Node 20) lists the switch, 12.4 (Node 22) and 13.6 (Node 24) do not.
  it('asks for it on Node 20 until the first frame, and on no later Node', async () => {
    const [later, usual] = await asked('11.3.244.8-node.33')
    expect([later, usual]).toEqual(['--interrupt-budget=500000', '--interrupt-budget=67584'])
    for (const v8 of ['12.4.254.21-node.57', '13.6.233.17-node.53', '110.1'])
      expect(await asked(v8)).toEqual([])
  })
})
