// An invented ladder beside the engine: two more members, each fit, one of them at a critical position.
import { breathing, kit, reads } from '../fit-crew.ts'
import type { Told } from '../given.ts'

const member = (id: string, name: string): Told => ({
  do: 'add-member',
  member: {
    id,
    name,
    platoon: 'B',
    sizes: { coat: '44x32', trousers: '38x30', gloves: '76W', boots: '11D' },
  },
})
/** A ladder with a critical roof position and one more; its gear and its two members, each fit. */
export const LADDER: Told[] = [
  {
    do: 'add-rig',
    rig: {
      id: 'L6',
      name: 'Ladder 6',
      minimum: 1,
      seats: [
        { id: 'L6-1', position: 'Roof', critical: true },
        { id: 'L6-2', position: 'Can' },
      ],
    },
  },
  ...[3, 4].flatMap((set): Told[] => [
    member(`M-10${set + 3}`, set === 3 ? 'C. Lind' : 'D. Abara'),
    ...kit(`M-10${set + 3}`, String(set)),
    ...breathing(`L6-${set - 2}`, String(set)),
    { do: 'seat-member', seat: `L6-${set - 2}`, member: `M-10${set + 3}` },
    reads(String(set)),
  ]),
]
