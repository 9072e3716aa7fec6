// `bayboard record`: commands as JSON Lines, one answer a line; the same commands as the keys send.
import { createReadStream, fstatSync } from 'node:fs'
import { parseCommand } from '../domain/commands.ts'
import type { Answer, Session } from '../session.ts'
import { whyOf } from '../store/trouble.ts'
import { eachLine } from './each-line.ts'
import { withStation } from './opened.ts'
import { complain, print, type ExitStatus, type World } from './world.ts'

interface RecordOptions {
  station?: string
  file?: string
}

const LONGEST = 4 * 1024 * 1024

export const record = (world: World, options: RecordOptions): Promise<ExitStatus> =>
  withStation(world, options.station, async (session) => {
    // The runtime reads a folder on the standard input as if it were empty.
    if (options.file === undefined && isFolder(world.stdin.fd)) {
      return complain(
        world,
        'The standard input is a folder, so there is nothing to read. Nothing was recorded.',
        3,
      )
    }
    const input = options.file === undefined ? world.stdin : createReadStream(options.file)
    let status: ExitStatus = 0
    let number = 0
    try {
      for await (const line of eachLine(input, LONGEST)) {
        number++
        if (line.trim() === '') continue
        const answer = await handle(session, line, number)
        print(world, JSON.stringify(said(answer)))
        if ('failed' in answer) return complain(world, answer.failed, 3)
        if ('refused' in answer) status = 1
        else if (answer.seal && 'failed' in answer.seal) complain(world, answer.seal.failed, 0)
      }
    } catch (error) {
      const name = options.file ?? 'the input'
      return complain(
        world,
        `${name} cannot be read: ${whyOf(error)}. Every command answered before is recorded.`,
        3,
      )
    }
    return status
  })

const said = (answer: Answer): object => {
  if ('failed' in answer) return { refused: answer.failed }
  return 'refused' in answer ? answer : { accepted: answer.accepted }
}

const isFolder = (fd: number): boolean => fstatSync(fd).isDirectory()

async function handle(session: Session, line: string, number: number): Promise<Answer> {
  if (line.length > LONGEST)
    return { refused: `Line ${number} is longer than any command. Nothing was recorded.` }
  let input: unknown
  try {
    input = JSON.parse(line)
  } catch {
    return {
      refused: `Line ${number} is not JSON. Write one command a line, as {"do":"note","by":"M-104","text":"..."}.`,
    }
  }
  const parsed = parseCommand(input)
  return 'refused' in parsed ? parsed : session.submit(parsed.command)
}
