// PINs at the board: typed unseen, never scanned, never kept on the screen; it must never tell one.
import type { Command } from '../../domain/commands.ts'
import { sayMember } from '../../domain/decide/decision.ts'
import { pinsAsked } from '../../domain/pin.ts'
import { confirm, type Action, type Step } from './action.ts'
import { askOfficer } from './ask.ts'

const DIGITS = /^\d{4,12}$/

const pinFault = (text: string): string | undefined =>
  DIGITS.test(text) ? undefined : 'A PIN is 4 to 12 digits.'

export const pinStep = (title: string, name = 'pin', fault = pinFault): Step => ({
  ask: 'write',
  name,
  title,
  hint: '4 to 12 digits; it is not shown',
  isSecret: true,
  fault,
})

export const setPin: Action = {
  id: 'set-pin',
  isOfStation: true,
  asksWho: true,
  key: '#',
  label: 'pin',
  help: 'Set a PIN of your own: handing over, reading back, adopting a policy and changing it then ask for it.',
  blocked: ({ state }) => (state.members.size ? undefined : 'This station has no member yet.'),
  next(view, answers) {
    const { state } = view
    const asked = askOfficer(view, answers, 'whose', 'Whose PIN is set? They type it themselves.')
    if (asked?.ask === 'choose') {
      const onDuty = asked.options.findIndex((each) => each.value === state.tour?.officer)
      return { ...asked, start: Math.max(0, onDuty) }
    }
    const by = answers['whose']!
    const who = sayMember(state, by)
    const [before] = pinsAsked(state, { do: 'set-pin', by })
    if (before && answers[before.field] === undefined) {
      const whose = sayMember(state, before.member.id)
      return pinStep(
        `The PIN of ${whose}${before.field === 'old' ? ' now' : `, for a first one of ${who}`}?`,
        before.field,
      )
    }
    if (answers['pin'] === undefined) return pinStep(`A new PIN for ${who}?`)
    const { pin } = answers
    const isAgain = (text: string): string | undefined =>
      text === pin
        ? undefined
        : 'That is not the same. Type it again, or go back with Esc and begin with another.'
    if (answers['again'] === undefined) return pinStep('The new PIN again?', 'again', isAgain)
    const given = before && { [before.field]: answers[before.field] }
    const command: Command = { do: 'set-pin', by, pin, ...given }
    const notes = [
      'What is kept is not the PIN: nobody can read it back.',
      'Who forgets it has it cleared by another member: bayboard pin clear.',
    ]
    return confirm(view, `Set the PIN of ${who}?`, [command], `The PIN of ${who} is set.`, notes)
  },
}
