// The one door to everything that is printed: a job in, the bytes of a PDF out; it must never read a file or a clock.
import type { ReadinessLog } from '../exports/readiness-log.ts'
import { printLog } from './log-paper.ts'
import { openPress, type Fonts, type Paper } from './press.ts'

export interface LogJob {
  print: 'readiness-log'
  log: ReadinessLog
}
export type Job = LogJob

interface Setting {
  paper: Paper
  fonts: Fonts
}

export function makePaper(job: Job, setting: Setting): Promise<Buffer> {
  switch (job.print) {
    case 'readiness-log': {
      const { tour, station, exportedAt } = job.log
      const title = `Readiness log of tour ${tour.id}, ${station.name}`
      return printLog(openPress({ ...setting, title, at: exportedAt }), job.log)
    }
  }
}
