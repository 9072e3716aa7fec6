// A program for the tests that records two notes and is stopped on the way, as by Ctrl-Z or a lid that is closed; it must never be told when it wakes.
import { openSession } from '../../src/session.ts'
import { openStation } from '../../src/store/station.ts'

const [folder = '', where = ''] = process.argv.slice(2)
const now = Date.parse('2026-11-24T12:00:00Z')

let isToStop = false
const stop = (): void => {
  isToStop = false
  process.stdout.write('stopping\n')
  process.kill(process.pid, 'SIGSTOP')
}
const keeper = await openStation(folder)
if ('sentence' in keeper) throw new Error(keeper.sentence)
// The session asks for the time with the lock in hand and the books caught up, before it decides.
const session = openSession(keeper, () => {
  if (isToStop) stop()
  return now
})
const record = async (text: string): Promise<void> => {
  const answer = await session.submit({ do: 'note', by: 'M-104', text })
  process.stdout.write(`${'accepted' in answer ? `accepted ${answer.accepted[0]}` : Object.values(answer)}\n`)
}
await record('before')
if (where === 'in the act') isToStop = true
else stop()
await record('in between')
await record('after')
await session.close()
