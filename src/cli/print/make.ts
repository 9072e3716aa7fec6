// Makes what is printed, as a job for paper, as rows and as data, all three from one model; it must never write a file.
import type { EventOf } from '../../domain/events.ts'
import { isLocalDate } from '../../domain/time.ts'
import { careSlipOf, slipRows, type CareSlip } from '../../exports/care-slip.ts'
import { followElements } from '../../exports/element-record.ts'
import { bagTagsOf, labelsOf, outOfServiceTagsOf } from '../../exports/gear-tags.ts'
import { BREATHING, followInspections } from '../../exports/inspection-record.ts'
import {
  bagRows,
  elementRecordRows,
  inspectionRows,
  labelRows,
  outOfServiceRows,
} from '../../exports/record-rows.ts'
import type { Job } from '../../paper/make-paper.ts'
import type { Session } from '../../session.ts'
import { readEventsNaming, type Logged } from '../../store/station.ts'
import type { Progress } from '../progress.ts'
import { readJournal } from '../read-journal.ts'
import { isOpenToAll, pickElements, type Asked } from './pick.ts'

export const NOUNS = [
  'label',
  'out-of-service-tag',
  'bag-tag',
  'care-slip',
  'element-record',
  'inspection',
] as const
export type Noun = (typeof NOUNS)[number]

export interface Wanted extends Asked {
  code?: string | undefined
  columns?: number | undefined
  rows?: number | undefined
  skip?: number | undefined
  since?: string | undefined
  /** Of a care slip: to whom, or which event, it was sent. */
  to?: string | undefined
  event?: number | undefined
}

export interface Made {
  job: Job
  rows: string
  data: object
}
/** `isUsage`: what was asked for cannot be meant, whatever the station holds. */
export type Making = Made | { refused: string; isUsage?: true }
const refuse = (refused: string): Making => ({ refused })
const refuseUsage = (refused: string): Making => ({ refused, isUsage: true })
const WHICH = 'Say which elements: their ids, --kind, --member or --all.'

interface Place {
  session: Session
  folder: string
  progress?: Progress
}

const madeIn = ({ session }: Place) => ({ at: session.now(), head: session.head })

export function make(noun: Noun, place: Place, wanted: Wanted): Making {
  const { state } = place.session
  if (noun === 'care-slip') return makeCareSlip(place, wanted)
  const isLiving = ({ custody }: { custody: { where: string } }): boolean => custody.where !== 'retired'
  const ids = pickElements(wanted, state, (each) => {
    if (noun === 'inspection') return BREATHING.includes(each.kind) && isLiving(each)
    return noun === 'element-record' || isLiving(each)
  })
  if (typeof ids === 'string') return refuse(ids)
  const by = madeIn(place)
  switch (noun) {
    case 'label': {
      if (isOpenToAll(wanted)) return refuseUsage(WHICH)
      const labels = labelsOf(state, ids, by)
      if (!labels.labels.length) return refuse('No element is like that, so there is no label to make.')
      const { columns = 3, rows = 8, skip = 0 } = wanted
      const code = wanted.code === 'qr' ? 'qr' : 'code128'
      return {
        job: { print: 'labels', labels, grid: { columns, rows, skip, code } },
        rows: labelRows(labels),
        data: labels,
      }
    }
    case 'out-of-service-tag': {
      const tags = outOfServiceTagsOf(state, ids, by)
      if (!tags.elements.length)
        return refuse('None of these elements is tagged out of service, so there is no tag to make.')
      return { job: { print: 'out-of-service-tags', tags }, rows: outOfServiceRows(tags), data: tags }
    }
    case 'bag-tag': {
      const tags = bagTagsOf(state, ids, by)
      if (!tags.elements.length)
        return refuse('None of these elements is contaminated, wet or held, so there is no bag tag to make.')
      return { job: { print: 'bag-tags', tags }, rows: bagRows(tags), data: tags }
    }
    case 'element-record': {
      if (isOpenToAll(wanted)) return refuseUsage(WHICH)
      if (!ids.length) return refuse('No element is like that, so there is no record to make.')
      const walk = followElements(ids)
      const stopped = readAll(place, walk.see)
      if (stopped) return refuse(stopped)
      const records = walk.end(state, by)
      return { job: { print: 'element-record', records }, rows: elementRecordRows(records), data: records }
    }
    case 'inspection': {
      const { since = null } = wanted
      if (since !== null && !isLocalDate(since))
        return refuseUsage(`--since ${since} is not a calendar date written YYYY-MM-DD.`)
      const wrong = ids.find((id) => !BREATHING.includes(state.elements.get(id)!.kind))
      if (wrong) return refuse(`${wrong} is no breathing apparatus: facepieces, air packs and cylinders are.`)
      if (!ids.length)
        return refuse('There is no breathing apparatus like that, so there is no record to make.')
      const walk = followInspections(ids, since)
      const stopped = readAll(place, walk.see)
      if (stopped) return refuse(stopped)
      const record = walk.end(state, by)
      return { job: { print: 'inspection', record }, rows: inspectionRows(record), data: record }
    }
  }
}

/** A record that leaves out what follows a damage would be taken for the whole. */
function readAll({ folder, progress }: Place, see: (event: Logged) => void): string | undefined {
  const stopped = readJournal(folder, see, progress)
  return stopped && `No record was made, because it would not be whole. ${stopped}`
}

/** The same where only events of one type matter: they are found by their bytes, while nothing is wrong with the journal. */
function readOf(place: Place, type: Logged['type'], see: (event: Logged) => void): string | undefined {
  const { session, folder } = place
  const isFound = !session.stopped && readEventsNaming(folder, [type], session.head.seq, see)
  return isFound ? undefined : readAll(place, see)
}

/** The newest batch that is meant: of an event, of somebody it was sent to, or of all. */
function makeCareSlip(place: Place, { to, event }: Wanted): Making {
  let sent: EventOf<'elements-sent-away'> | undefined
  const stopped = readOf(place, 'elements-sent-away', (each) => {
    if (each.type !== 'elements-sent-away') return
    if (event !== undefined && each.seq !== event) return
    if (to === undefined || each.data.to.toLowerCase().includes(to.toLowerCase())) sent = each
  })
  if (stopped) return refuse(stopped)
  if (!sent) {
    const which = event === undefined ? (to === undefined ? '' : ` to ${to}`) : ` by event ${event}`
    return refuse(`Nothing was sent away${which}, so there is no care slip to make.`)
  }
  const slip: CareSlip = careSlipOf(place.session.state, sent, madeIn(place))
  return { job: { print: 'care-slip', slip }, rows: slipRows(slip), data: slip }
}
