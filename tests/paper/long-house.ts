// A station of rigs with many seats and the longest of names, every one of them made up; for what paper must hold.
import { isHeldBySeat, KINDS } from '../../src/domain/kinds.ts'
import { station, type Recorder } from '../exports/recorder.ts'

const LONG = [
  'Bartholomew Featherstonehaugh-Wolfeschlegelsteinhausen',
  'Ana',
  'Maximiliana Quetzalcoatl Oyelaran-Vandersteenhoven of the Upper Meadows',
  'Þorbjörg Łukaszewicz-Çelik',
]

/** One rig with so many seats, each filled by somebody in a whole ensemble; the roll is called and a finding made in each third seat. */
export function longHouse(seats: number): Recorder {
  const log = station({
    name: 'The Station at the Corner of Old Brickmakers Lane and Upper Reservoir Parade',
  })
  const setUp = (command: Record<string, unknown>) => log.record('01 08:30', 'setup', command)
  const ids = Array.from({ length: seats }, (_, at) => `RESCUE-TENDER-6-SEAT-${at + 1}`)
  setUp({
    do: 'add-rig',
    rig: {
      id: 'RESCUE-TENDER-6',
      name: 'Heavy Rescue and Personnel Tender 6',
      minimum: 4,
      seats: ids.map((id, at) => ({ id, position: `Rear-facing jump position ${at + 1}`, critical: at < 2 })),
    },
  })
  ids.forEach((seat, at) => {
    const member = `MEMBER-${at + 1}`
    const name = `${LONG[at % LONG.length]} ${at + 1}`
    setUp({ do: 'add-member', member: { id: member, name, platoon: 'B' } })
    for (const kind of KINDS) {
      const element = {
        id: `${kind}-${at + 1}-0000000001`.slice(0, 40),
        kind,
        made: '2024-05',
        size: '44x32',
      }
      setUp({ do: 'add-element', element })
      setUp({ do: 'issue', element: element.id, to: isHeldBySeat(kind) ? seat : member, on: '2026-10-01' })
    }
  })
  const act = (when: string, command: Record<string, unknown>) => log.record(when, 'MEMBER-1', command)
  act('24 07:00', {
    do: 'open-tour',
    tour: '2026-11-24-B',
    platoon: 'B',
    officer: 'MEMBER-1',
    on: '2026-11-24',
  })
  ids.forEach((seat, at) => {
    act('24 07:01', { do: 'seat-member', seat, member: `MEMBER-${at + 1}` })
    const point =
      'a long tear along the inner seam from the knee to the cuff, with the moisture barrier showing through'
    const finding = { element: `trouser-shell-${at + 1}-0000000001`, point, matter: 'safety' }
    act('24 07:10', { do: 'answer', seat, findings: at % 3 === 0 ? [finding] : [] })
  })
  return log
}
