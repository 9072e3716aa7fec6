// A readiness log as text for mail and paper; it wraps and must never truncate or colour.
import { symbolOf, SIGNS } from '../domain/signs.ts'
import type { LogLine } from './log-line.ts'
import { blocksOf } from './log-lines.ts'
import type { ReadinessLog } from './log-shape.ts'
import { sayBy, sayWhen } from './said.ts'
import { wrap } from './wrap.ts'

/** @param options.width columns of the paper, 78 unless told; `unicode` false keeps the signs to ASCII */
export function asText(log: ReadinessLog, options: { width?: number; unicode: boolean }): string {
  const { width = 78, unicode } = options
  const lines = [
    `Readiness log of tour ${log.tour.id}`,
    `${log.station.name}, time zone ${log.station.timeZone}`,
    ...(log.mark === null ? [] : [log.mark]),
  ].flatMap((each) => wrap(each, width))
  for (const { heading, lines: all } of blocksOf(log)) {
    const shown = all.filter((each) => each.only !== 'rows')
    lines.push('', heading, '-'.repeat(heading.length))
    lines.push(...shown.flatMap((each) => paperLines(each, width, unicode)))
  }
  return `${lines.join('\n')}\n`
}

function paperLines(line: LogLine, width: number, unicode: boolean): string[] {
  const indent = line.section === 'rig' ? 2 : 2 + (line.level + Number(isUnderRig(line))) * 4
  return wrap(`${stamp(line)}${sign(line, unicode)}${line.words}`, width, indent, indent + 4)
}

const isUnderRig = ({ section }: LogLine): boolean =>
  section === 'seat' || section === 'reason' || section === 'gear'

const stamp = (line: LogLine): string =>
  line.seq !== undefined && line.at ? `${sayWhen(line.at)}  #${line.seq}  by ${sayBy(line)}  ` : ''

const sign = ({ state, matter }: LogLine, unicode: boolean): string =>
  state ? `${symbolOf(state, unicode)} ${SIGNS[state].word}${matter ? ` (${matter})` : ''}: ` : ''
