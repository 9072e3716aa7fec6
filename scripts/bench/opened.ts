// The board and its baseline, each opened on a terminal of one size.
import { join } from 'node:path'
import { program, type Tools } from './row.ts'
import { isBoardFrame, isHelloFrame, openTerminal, type OpenTerminal } from './terminal.ts'

const GLASS = { columns: 120, rows: 40 }

export const openBoard = (tools: Tools, station: string): Promise<OpenTerminal> =>
  openTerminal({
    args: [program(tools), '--station', station],
    root: tools.root,
    ...GLASS,
    isFrame: isBoardFrame,
  })
export const openHello = (tools: Tools): Promise<OpenTerminal> =>
  openTerminal({ args: [join(tools.built, 'hello.js')], root: tools.root, ...GLASS, isFrame: isHelloFrame })
