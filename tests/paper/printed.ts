// Prints for the tests as the program does, with the letters it ships.
import { readFileSync } from 'node:fs'
import { makePaper, type Job } from '../../src/paper/make-paper.ts'
import type { Fonts, Paper } from '../../src/paper/press.ts'

const font = (name: string) => readFileSync(new URL(`../../data/fonts/${name}.ttf`, import.meta.url))
export const FONTS: Fonts = { regular: font('DejaVuSansCondensed'), bold: font('DejaVuSansCondensed-Bold') }
export const PAPER_NAMES: readonly Paper[] = ['a4', 'letter']

export const printed = (job: Job, paper: Paper = 'a4'): Promise<Buffer> =>
  makePaper(job, { fonts: FONTS, paper })
