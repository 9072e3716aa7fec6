// The nouns of `bayboard print` with their options and an example each; what each one makes stands in make.ts.
import { Option, type Command } from 'commander'
import type { World } from '../world.ts'
import type { ExitStatus } from '../world.ts'
import type { PrintOptions } from '../print.ts'
import type { Noun } from './make.ts'

type Choose = (work: (world: World) => Promise<ExitStatus>) => void

const SAID: Readonly<Record<Noun, readonly [description: string, example: string]>> = {
  label: [
    'gear labels on a sheet, each with its id as a bar code',
    'bayboard print label --kind helmet --columns 3 --rows 8 --out labels.pdf',
  ],
  'out-of-service-tag': [
    'a tag for every element that is tagged, with its reasons, four to a sheet',
    'bayboard print out-of-service-tag --out tags.pdf',
  ],
  'bag-tag': [
    'a tag for every bag of contaminated, wet or held gear, with the care it needs, four to a sheet',
    'bayboard print bag-tag --out bags.pdf',
  ],
  'care-slip': [
    'what was sent away last, for the cleaner; with --out also the rows they fill in, as CSV beside it',
    'bayboard print care-slip --to "North Wash" --out slip.pdf',
  ],
  'element-record': [
    'the eleven items of the record of an element, from the whole journal',
    'bayboard print element-record C-1041 L-1041 --format json',
  ],
  inspection: [
    'the inspections of breathing apparatus, with the five items of 29 CFR 1910.134(h)(3)(iv)',
    'bayboard print inspection --since 2026-01-01 --out inspections.pdf',
  ],
}

export function describePrint(command: Command, station: () => { station?: string }, choose: Choose): void {
  for (const [noun, [description, example]] of Object.entries(SAID) as [Noun, (typeof SAID)[Noun]][]) {
    const each = command
      .command(noun)
      .copyInheritedSettings(command)
      .description(description)
      .addOption(new Option('--format <format>', 'pdf, csv or json').default('pdf'))
      .option('--paper <paper>', 'a4 or letter, for a PDF; else by the time zone of the station')
      .option('--out <file>', 'write this file, not the standard output')
      .option('--force', 'replace the file if it is there')
      .addHelpText('after', `\nExample: ${example}`)
    if (noun === 'care-slip') {
      each
        .option('--to <name>', 'the newest batch sent to them')
        .option('--event <number>', 'the batch sent by this event of the journal')
        .action((options: Omit<PrintOptions, 'ids'>) => run(noun, [], options))
      continue
    }
    each
      .argument('[id...]', 'elements; else all of which there is something to print')
      .option('--kind <kind>', 'of this kind only, such as coat-shell')
      .option('--member <id>', 'of this member, or of this riding position')
      .option('--all', 'all elements')
    if (noun === 'label') {
      each
        .option('--code <code>', 'code128, or qr for a square one')
        .option('--columns <number>', 'labels across a sheet, 3 unless told, at most 6')
        .option('--rows <number>', 'labels down a sheet, 8 unless told, at most 18')
        .option('--skip <number>', 'labels of the first sheet that are used up')
    }
    if (noun === 'inspection')
      each.option('--since <date>', 'every inspection since this day, not the last of each')
    each.action((ids: string[], options: Omit<PrintOptions, 'ids'>) => run(noun, ids, options))
  }

  function run(noun: Noun, ids: string[], options: Omit<PrintOptions, 'ids'>): void {
    choose(async (world) => {
      const { printPaper } = await import('../print.ts')
      return printPaper(world, noun, { ...station(), ...options, ids })
    })
  }
}
