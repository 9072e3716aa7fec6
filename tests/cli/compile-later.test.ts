// That the start asks V8 for nothing that it would complain of on the screen.
import { spawnSync } from 'node:child_process'
import { describe, expect, it } from 'vitest'
import { compileLater } from '../../src/cli/compile-later.ts'

const asked = (v8: string): string[] => {
  const flags: string[] = []
  compileLater(v8, (flag) => flags.push(flag))
  return flags
}

describe('a start of the board', () => {
  it('says nothing about a switch that the V8 of this Node does not know', () => {
    const set = asked(process.versions.v8).map((flag) => `v8.setFlagsFromString('${flag}')`)
    const { stderr, status } = spawnSync(process.execPath, [
      '-e',
      `const v8 = require('v8');${set.join(';')}`,
    ])
    expect({ status, stderr: stderr.toString() }).toEqual({ status: 0, stderr: '' })
  })

  // From `node --v8-options`: 11.3 (Node 20) lists the switch, 12.4 (Node 22) and 13.6 (Node 24) do not.
  it('asks for it on Node 20 and on no later one', () => {
    expect(asked('11.3.244.8-node.33')).toHaveLength(1)
    for (const later of ['12.4.254.21-node.57', '13.6.233.17-node.53', '110.1'])
      expect(asked(later)).toEqual([])
  })
})
