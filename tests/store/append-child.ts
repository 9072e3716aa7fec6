// A program for the tests that appends events to a station under the lock, or dies holding it; it must never append without the lock.
import { openJournal, type Journal } from '../../src/store/journal.ts'
import { withLock } from '../../src/store/lock.ts'

const [folder = '', name = '', count = '0', ending = ''] = process.argv.slice(2)

const appendOne = async (journal: Journal, text: string): Promise<void> => {
  const locked = await withLock(folder, (held) => {
    const caughtUp = journal.catchUp(() => undefined)
    if (caughtUp.kind !== 'whole') throw new Error(caughtUp.kind)
    const at = '2026-11-24T07:02:11.482-05:00'
    return journal.append(held, { at, by: name, type: 'noted', data: { text } })
  })
  if (!locked.ok) throw new Error(locked.sentence)
  if (!locked.value.ok) throw new Error(locked.value.sentence)
  process.stdout.write(`${text}\n`)
}

const opened = openJournal(folder)
if (opened.kind !== 'opened') throw new Error(opened.sentence)
for (let i = 1; i <= Number(count); i++) await appendOne(opened.journal, `${name} ${i}`)
if (ending === 'die-holding-the-lock') {
  await withLock(folder, () => process.kill(process.pid, 'SIGKILL'))
}
