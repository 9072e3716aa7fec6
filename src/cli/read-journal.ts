// Reads the whole journal for a log or a record and says how far it has come; it must never pass a part off as the whole.
import { readEvents, type Logged } from '../store/station.ts'
import type { Progress } from './progress.ts'

/** Shows every event from the first; the sentence when the journal cannot be read to its end. */
export function readJournal(
  folder: string,
  see: (event: Logged) => void,
  progress?: Progress,
): string | undefined {
  const read = readEvents(folder, (event) => {
    see(event)
    progress?.step(event.seq)
  })
  progress?.end()
  return 'sentence' in read ? read.sentence : read.stopped
}
