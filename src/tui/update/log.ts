// Keys on the log: moving, reading one record whole, showing some only, correcting or withdrawing the one in hand.
import { recordsOf } from '../../domain/decide/amend.ts'
import { refusalOf } from '../actions/action.ts'
import type { Token } from '../input/keys.ts'
import { LOG_ACTIONS } from '../keymap.ts'
import { logIndex, say, showCard, type LogEntry, type Ui, type Updated } from '../ui-state.ts'
import type { View } from '../view.ts'
import { scrolled } from './scroll.ts'
import { startSheet } from './sheet.ts'

export function updateLog(ui: Ui, token: Token, view: View): Updated {
  const at = logIndex(ui)
  const entry = ui.log[at]
  if ('char' in token) return press(ui, token.char, view, entry)
  if (!('key' in token)) return { ui }
  switch (token.key) {
    case 'escape':
      // One step back: first all of the log again, then the board.
      return ui.filter
        ? { ui: { ...ui, filter: null }, effect: { log: true } }
        : { ui: { ...ui, screen: 'board' } }
    case 'enter':
      return entry ? { ui: showCard(ui, `event ${entry.seq}`, wholeOf(entry)) } : { ui }
    default:
      return { ui: { ...ui, entry: ui.log[scrolled(at, token, ui.log.length - 1)]?.seq ?? null } }
  }
}

/** The record with every version of it, and all that it is about. */
const wholeOf = ({ text, versions, about }: LogEntry): string[] => [
  text,
  ...(versions.length ? ['', ...versions] : []),
  ...(about.length ? ['', `It is about: ${about.join(', ')}.`] : []),
]

function press(ui: Ui, char: string, view: View, entry: LogEntry | undefined): Updated {
  const action = LOG_ACTIONS.find((each) => each.key === char)
  if (!action) return say(ui, `"${char}" is not a key of the log. Esc goes back to the board.`)
  if (action.recordsNothing) return startSheet(ui, view, action.id)
  if (!entry) return say(ui, 'There is no record in hand.')
  const refused = action.id === 'withdraw' ? whyNotWithdrawn(view, entry) : whyNotCorrected(view, entry)
  if (refused) return say(ui, refused)
  return startSheet({ ...ui, entry: entry.seq }, view, action.id, [
    { name: 'seq', value: String(entry.seq), isGiven: true },
    { name: 'said', value: entry.text, isGiven: true },
  ])
}

const whyNotWithdrawn = (view: View, { seq, isLabel }: LogEntry): string | undefined =>
  isLabel
    ? `Event ${seq} says who or what there is: that is corrected with c, never withdrawn.`
    : refusalOf(view, { do: 'amend', seq, why: 'withdrawn', with: { withdrawn: true } })

function whyNotCorrected(view: View, { seq }: LogEntry): string | undefined {
  const [record] = recordsOf(view.state, seq)
  if (!record) return refusalOf(view, { do: 'amend', seq, why: 'corrected', with: {} })
  return record.type === 'seat-answered'
    ? `What was answered is not rewritten: withdraw event ${seq} with -, and call ${record.subject} again.`
    : undefined
}
