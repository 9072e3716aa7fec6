// The one table of keys: it feeds the handler, the key line, the help and the README. No key is named anywhere else.
import type { Command } from '../domain/commands.ts'
import type { Action } from './actions/action.ts'
import * as care from './actions/care.ts'
import { correct, withdraw } from './actions/correct.ts'
import * as crew from './actions/crew.ts'
import * as custody from './actions/custody.ts'
import * as desk from './actions/desk.ts'
import { handOver } from './actions/hand-over.ts'
import { onlyElement, onlyMember, onlySeat, onlyTour } from './actions/log-filters.ts'
import * as outOfService from './actions/out-of-service.ts'
import { takeMoves, takePlan, takeSwap } from './actions/plan.ts'
import { setPin } from './actions/pin.ts'
import { pressure } from './actions/pressure.ts'
import { acknowledge } from './actions/read-back.ts'
import * as spare from './actions/swap.ts'
import { openTour } from './actions/tour.ts'
import { undo } from './actions/undo.ts'

/** In groups as the help shows them; within a group as the officer meets them. */
export const ACTION_GROUPS: readonly { title: string; actions: readonly Action[] }[] = [
  {
    title: 'The crew',
    actions: [openTour, acknowledge, crew.seatMember, crew.clearSeat, handOver, setPin],
  },
  {
    title: 'Out of service',
    actions: [
      outOfService.finding,
      outOfService.tag,
      spare.swap,
      spare.swapBack,
      outOfService.lift,
      outOfService.hold,
    ],
  },
  {
    title: 'Gear',
    actions: [
      pressure,
      care.exposure,
      care.care,
      custody.sendAway,
      custody.receiveBack,
      care.fitTest,
      custody.issue,
      custody.returnToRack,
      custody.retire,
    ],
  },
  { title: 'The log', actions: [desk.find, desk.note, undo, desk.exportLog] },
]

export const ACTIONS: readonly Action[] = ACTION_GROUPS.flatMap((group) => group.actions)
/** Started on the log: of the record in hand, or of what is shown. */
export const LOG_ACTIONS: readonly Action[] = [correct, withdraw, onlyTour, onlySeat, onlyElement, onlyMember]
/** Started on the plan: of all of it, or of the swap in hand. */
export const PLAN_ACTIONS: readonly Action[] = [takePlan, takeSwap, takeMoves]
const ALL = [...ACTIONS, ...LOG_ACTIONS, ...PLAN_ACTIONS, desk.which]
export const actionBy = (id: string): Action => ALL.find((each) => each.id === id)!

/** Keys that move, look or leave; they never record anything. */
export interface Looking {
  id: 'roll-call' | 'log' | 'plan' | 'coverage' | 'deadlines' | 'help' | 'quit'
  key: string
  label: string
  help: string
}
export const LOOKING: readonly Looking[] = [
  {
    id: 'roll-call',
    key: 'r',
    label: 'roll call',
    help: 'Call the roll, riding position by riding position.',
  },
  { id: 'log', key: 'l', label: 'log', help: 'The log: all that was recorded, newest first.' },
  {
    id: 'plan',
    key: 'g',
    label: 'plan',
    help: 'The best use of the rack for everybody who is unfit, proven: what goes in where, and why.',
  },
  {
    id: 'coverage',
    key: '+',
    label: 'coverage',
    help: 'What the rack covers: by kind, who would be left without by one loss, and what to buy first.',
  },
  {
    id: 'deadlines',
    key: '.',
    label: 'deadlines',
    help: 'Deadlines ahead: what is past, what comes due and what ends its life, by month.',
  },
  { id: 'help', key: '?', label: 'all keys', help: 'Every key, the signs, the policy and the cautions.' },
  { id: 'quit', key: 'q', label: 'quit', help: 'Leave the board. Everything accepted is already on disk.' },
]

/** Keys that mean the same on every screen. */
export const EVERYWHERE: readonly { keys: string; help: string }[] = [
  { keys: 'up, down', help: 'move along the list' },
  { keys: 'left, right', help: 'on the board: say in words what a column is and holds' },
  { keys: 'Tab', help: 'on the board: the next rig; on a card or here: the next part' },
  { keys: 'Enter', help: 'on the board: all about the riding position in hand; elsewhere: take or confirm' },
  { keys: 'Esc', help: 'one step back, always' },
  { keys: 'Ctrl-C', help: 'leave the board at once' },
  {
    keys: 'a scan',
    help: 'shows the card of what was scanned, or puts it in hand on a list; never a command or an answer',
  },
]

/** What the key line shows first when there is room for few. */
export const KEY_LINE: readonly string[] = [
  'roll-call',
  'finding',
  'tag',
  'swap',
  'plan',
  'exposure',
  'open-tour',
  'hand-over',
  'export',
  'log',
  'deadlines',
  'coverage',
  'help',
  'quit',
]

/** Commands that no key gives, and why. */
export const WITHOUT_KEY: Readonly<Partial<Record<Command['do'], string>>> = {
  'add-rig': 'Rigs are set up once, by bayboard record.',
  'import-records': 'A file is named on the command line: bayboard import.',
  'import-gear': 'A file is named on the command line: bayboard import.',
  'receive-batch': 'A filled-in care slip is a file, named on the command line: bayboard receive.',
  'clear-pin': 'A forgotten PIN is cleared on the command line: bayboard pin clear.',
  'adopt-policy': 'An overlay is a file, checked and adopted on the command line: bayboard policy adopt.',
}
