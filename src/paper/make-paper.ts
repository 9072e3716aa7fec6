// The one door to everything that is printed: a job in, the bytes of a PDF out; it must never read a file or a clock.
import type { CareSlip } from '../exports/care-slip.ts'
import type { BagTags, Labels, OutOfServiceTags } from '../exports/gear-tags.ts'
import type { InspectionRecord } from '../exports/inspection-record.ts'
import type { ReadinessLog } from '../exports/readiness-log.ts'
import type { ElementRecords } from '../exports/record-shape.ts'
import { printLabels, type Grid } from './label-sheet.ts'
import { printLog } from './log-paper.ts'
import { openPress, type Fonts, type Paper, type Press } from './press.ts'
import { printElementRecords, printInspections } from './record-paper.ts'
import { printCareSlip } from './slip-paper.ts'
import { printBagTags, printOutOfServiceTags } from './tag-sheet.ts'

export type Job =
  | { print: 'readiness-log'; log: ReadinessLog }
  | { print: 'labels'; labels: Labels; grid: Grid }
  | { print: 'out-of-service-tags'; tags: OutOfServiceTags }
  | { print: 'bag-tags'; tags: BagTags }
  | { print: 'care-slip'; slip: CareSlip }
  | { print: 'element-record'; records: ElementRecords }
  | { print: 'inspection'; record: InspectionRecord }

interface Setting {
  paper: Paper
  fonts: Fonts
}

export function makePaper(job: Job, setting: Setting): Promise<Buffer> {
  const open = (title: string, at: string): Press => openPress({ ...setting, title, at })
  switch (job.print) {
    case 'readiness-log': {
      const { tour, station, exportedAt } = job.log
      return printLog(open(`Readiness log of tour ${tour.id}, ${station.name}`, exportedAt), job.log)
    }
    case 'labels':
      return printLabels(open(`Gear labels, ${job.labels.station}`, job.labels.at), job.labels, job.grid)
    case 'out-of-service-tags':
      return printOutOfServiceTags(open(`Out-of-service tags, ${job.tags.station}`, job.tags.at), job.tags)
    case 'bag-tags':
      return printBagTags(open(`Bag tags, ${job.tags.station}`, job.tags.at), job.tags)
    case 'element-record':
      return printElementRecords(open(`Element records, ${job.records.station}`, job.records.at), job.records)
    case 'inspection':
      return printInspections(open(`Inspection record, ${job.record.station}`, job.record.at), job.record)
    case 'care-slip':
      return printCareSlip(open(`Care slip, ${job.slip.station}`, job.slip.at), job.slip)
  }
}
