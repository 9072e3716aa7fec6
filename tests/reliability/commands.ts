// Commands about the invented house of the domain's tests, any number of them, the same for the same seed.
import { sample } from 'fast-check'
import { parseCommand, type Command } from '../../src/domain/commands.ts'
import { anyTour } from '../domain/any-commands.ts'
import { house } from '../domain/alder-hollow.ts'
import type { Told } from '../domain/given.ts'

export const FACTS = {
  format: 1 as const,
  name: 'Larch Hill',
  timeZone: 'America/New_York',
  rotation: '24/48',
  starts: '07:00',
  policy: 'nfpa-1851-2020',
}
export const MADE_AT = '2026-11-24T06:00:00.000-05:00'
export const NOW_MS = Date.parse('2026-11-24T12:00:00Z')

const SETTING_UP = ['add-rig', 'add-member', 'add-element', 'issue', 'import-gear']
// Chance would need long to find its way to a hand-over.
const TOUR = [
  { do: 'open-tour', tour: 'T-1', platoon: 'B', officer: 'M-104', on: '2026-11-24' },
  { do: 'note', text: 'hydrant 12 frozen' },
  { do: 'hand-over', to: 'M-207' },
] as const

/** Well-formed, and not all of them allowed: a refusal must leave nothing behind. PINs are left out: they take long by intent. */
export function anyCommands(seed: number): Command[] {
  const [told = []] = sample(anyTour, { seed, numRuns: 1 })
  const all: readonly Told[] = [...house, ...TOUR, ...told.filter(({ do: name }) => !name.endsWith('-pin'))]
  return all.flatMap((each) => {
    const by = SETTING_UP.includes(each.do) ? 'setup' : 'M-104'
    const parsed = parseCommand({ by, ...each })
    return 'command' in parsed ? [parsed.command] : []
  })
}
