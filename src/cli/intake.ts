// The subcommands that take a file in, import and receive; what each one does stands in its own file.
import type { Add, Work } from './program.ts'

export function describeIntake(
  add: Add,
  station: () => { station?: string },
  choose: (work: Work) => void,
): void {
  add('import', 'members, gear, cares or fit tests from CSV or XLSX; all or nothing')
    .argument('<file>')
    .option('--dry-run', 'only say what would be imported and what it would change')
    .option('--update', 'take changes of what is on the books without asking')
    .option('--by <member>', 'who answers for it; needed where it changes the books')
    .option('--map <heading=column...>', 'which heading of the file is which column')
    .option('--as <sort>', 'what the file holds: gear (and members), cares or fit-tests')
    .option('--sheet <name>', 'which sheet of a workbook; else the first with anything in it')
    .addHelpText(
      'after',
      '\nExamples:\n  bayboard import gear.xlsx --dry-run\n  bayboard import gear.csv --update --by M-104\n  bayboard import cleanings.csv --as cares --map "Unit=element"',
    )
    .action((file: string, options) =>
      choose(async (world) =>
        (await import('./import.ts')).importFile(world, file, { ...station(), ...options }),
      ),
    )

  add('receive', 'take back a batch by its care slip, filled in as CSV; all or nothing')
    .argument('<file>')
    .option('--by <member>', 'who receives it')
    .option('--dry-run', 'only say what would be recorded')
    .addHelpText('after', '\nExample: bayboard receive slip.csv --by M-104')
    .action((file: string, options) =>
      choose(async (world) =>
        (await import('./receive.ts')).receive(world, file, { ...station(), ...options }),
      ),
    )
}
