// Decides one command against the books: an event, or a refusal in the user's words. Pure; it sees no rule and no clock.
import { SETUP, type Command, type Dated } from './commands.ts'
import { amend } from './decide/amend.ts'
import * as crew from './decide/crew.ts'
import { record, refuse, type Decision } from './decide/decision.ts'
import * as gear from './decide/gear.ts'
import { importGear } from './decide/import-gear.ts'
import { importRecords } from './decide/import-records.ts'
import { receiveBatch } from './decide/receive-batch.ts'
import * as settingUp from './decide/setting-up.ts'
import { adoptionFault, clearPin, pinFault, sayProof, setPin } from './pin.ts'
import { baseOf } from './policy/bases.ts'
import { faultsOf } from './policy/in-force.ts'
import type { State } from './state.ts'
import { dateOf, type LocalDate } from './time.ts'

export type { Decision } from './decide/decision.ts'

/** What `setup` may still do when the station has members: describe the station, never act in a tour. */
const SETTING_UP: readonly Command['do'][] = ['add-rig', 'add-member', 'add-element', 'issue', 'import-gear']

export function decide(command: Dated, state: State): Decision {
  if (!state.station) return refuse('There is no station here yet. Make one with: bayboard init')
  const stranger = strangerAt(command, state)
  if (stranger) return refuse(stranger)
  const decision = decideBy(command, state)
  // No PIN is asked for what could not be recorded anyway.
  if ('refused' in decision) return decision
  return pinFault(command, state) ?? { draft: sayProof(command, decision.draft, state) }
}

/** Does it only bring along what was before the station was made? Whoever sets it up may. What changes the books needs a name. */
function isOfBefore(command: Dated, state: State): boolean {
  const isBefore = ({ on }: { on: LocalDate }): boolean => on < dateOf(state.station!.madeAt)
  if (command.do === 'record-care' || command.do === 'record-fit-test') return isBefore(command)
  if (command.do !== 'import-records') return false
  return !command.changes.length && [...command.cares, ...command.fitTests].every(isBefore)
}

function strangerAt(command: Dated, state: State): string | undefined {
  const { by, do: name } = command
  if (by !== SETUP) {
    return state.members.has(by)
      ? undefined
      : `There is no member ${by} in this station. Nothing was recorded.`
  }
  return state.members.size === 0 || SETTING_UP.includes(name) || isOfBefore(command, state)
    ? undefined
    : `"setup" may only set up and import. Give the id of the member who does this in "by".`
}

function decideBy(command: Dated, state: State): Decision {
  switch (command.do) {
    case 'add-rig':
      return settingUp.addRig(command, state)
    case 'add-member':
      return settingUp.addMember(command, state)
    case 'add-element':
      return settingUp.addElement(command, state)
    case 'import-gear':
      return importGear(command, state)
    case 'import-records':
      return importRecords(command, state)
    case 'issue':
      return settingUp.issue(command, state)
    case 'return-to-rack':
      return settingUp.returnToRack(command, state)
    case 'open-tour':
      return crew.openTour(command, state)
    case 'seat-member':
      return crew.seatMember(command, state)
    case 'clear-seat':
      return crew.clearSeat(command, state)
    case 'answer':
      return crew.answer(command, state)
    case 'swap':
      return crew.swap(command, state)
    case 'swap-back':
      return crew.swapBack(command, state)
    case 'acknowledge':
      return crew.acknowledge(command, state)
    case 'hand-over':
      return crew.handOver(command, state)
    case 'read-pressure':
      return gear.readPressure(command, state)
    case 'tag':
      return gear.tag(command, state)
    case 'lift-tag':
      return gear.liftTag(command, state)
    case 'record-exposure':
      return gear.recordExposure(command, state)
    case 'record-care':
      return gear.recordCare(command, state)
    case 'record-fit-test':
      return gear.recordFitTest(command, state)
    case 'send-away':
      return gear.sendAway(command, state)
    case 'receive-back':
      return gear.receiveBack(command, state)
    case 'receive-batch':
      return receiveBatch(command, state)
    case 'hold':
      return gear.hold(command, state)
    case 'retire':
      return gear.retire(command, state)
    case 'note':
      return record('note-made', { text: command.text })
    case 'amend':
      return amend(command, state)
    case 'set-pin':
      return setPin(command)
    case 'clear-pin':
      return clearPin(command, state)
    case 'adopt-policy': {
      const fault = adoptionFault(state, command.by) ?? faultsOf(baseOf(state), command.overlay)[0]
      return fault
        ? refuse(`The overlay was not adopted. ${fault}`)
        : record('policy-adopted', { overlay: command.overlay })
    }
  }
}
