// Puts a job on paper for a subcommand: the letters read from the data beside the program, the printing loaded only when asked for.
import { readFileSync } from 'node:fs'
import type { State } from '../domain/state.ts'
import { whyOf } from '../store/trouble.ts'
import type { Job } from '../paper/make-paper.ts'
import type { Fonts, Paper } from '../paper/press.ts'

export const PAPER_NAMES = ['a4', 'letter'] as const satisfies readonly Paper[]

/** What a subcommand writes: text, or the bytes of a PDF. */
export type Written = string | Uint8Array

/** The paper asked for, or the one the station's part of the world prints on; undefined for a paper there is not. */
export function paperNamed(name: string | undefined, { station }: State): Paper | undefined {
  if (name === undefined) return /^(America|US)\//.test(station?.timeZone ?? '') ? 'letter' : 'a4'
  return PAPER_NAMES.find((each) => each === name)
}

export const sayNoPaper = (name: string | undefined): string =>
  `There is no paper ${name} here. Choose one of: ${PAPER_NAMES.join(', ')}.`

export const NOT_IN_A_TERMINAL =
  'A PDF cannot be read in a terminal. Nothing was written. Name a file with --out, or send it on through a pipe.'

function fontsIn(data: URL): Fonts {
  const read = (name: string): Uint8Array => {
    const place = new URL(`fonts/${name}.ttf`, data)
    try {
      return readFileSync(place)
    } catch (error) {
      throw new Error(`the letters to print with cannot be read from ${place.pathname}: ${whyOf(error)}`, {
        cause: error,
      })
    }
  }
  return { regular: read('DejaVuSansCondensed'), bold: read('DejaVuSansCondensed-Bold') }
}

export async function onPaper(job: Job, paper: Paper, data: URL): Promise<Uint8Array> {
  const { makePaper } = await import('../paper/make-paper.ts')
  return makePaper(job, { paper, fonts: fontsIn(data) })
}
