// The table of subcommands and their options; what each one does stands in its own file.
import { Command, CommanderError, Option } from 'commander'
import about from '../../package.json' with { type: 'json' }
import { describeIntake } from './intake.ts'
import { describeTrust } from './trust.ts'
import { describePrint } from './print/describe.ts'
import { describeRack } from './rack.ts'
import { refuseUnknown } from './refuse-unknown.ts'
import { complain, type ExitStatus, type World } from './world.ts'

export type Work = (world: World) => Promise<ExitStatus> | ExitStatus
export type Add = (name: string, description: string) => Command

const RECORD_EXAMPLES = `
Examples, one line each; "bayboard schema command" tells every command:
  {"do":"add-rig","by":"setup","rig":{"id":"E6","name":"Engine 6","minimum":2,"seats":[{"id":"E6-1","position":"Officer","critical":true},{"id":"E6-2","position":"Nozzle"}]}}
  {"do":"tag","by":"M-104","element":"C-1041","reason":"torn seam","matter":"safety"}`

/** Runs the command line and gives the exit status. Each subcommand is loaded only when it is asked for. */
export async function runProgram(argv: readonly string[], world: World): Promise<ExitStatus> {
  let work: Work | undefined
  const program = describe(world, (chosen) => {
    work = chosen
  })
  try {
    program.parse([...argv], { from: 'user' })
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2
    throw error
  }
  if (program.opts()['station'] === '') {
    return complain(world, '--station is empty. Name the folder of a station, or leave the option out.', 2)
  }
  return work ? work(world) : complain(world, 'Nothing to do. See bayboard --help.', 2)
}

/** One line: what is wrong with the arguments, and where to look. */
function complainOfUsage(world: World, error: string): void {
  const words = error.trim().replace(/^error: (.)/, (_, first: string) => first.toUpperCase())
  complain(world, `${words.replace(/\.?$/, '.')} See bayboard --help.`, 2)
}

function describe(world: World, choose: (work: Work) => void): Command {
  const program = new Command('bayboard')
    .description(
      'Who may ride, in what gear, and why not: the board of the officer who takes over a fire company.',
    )
    .option('--station <folder>', 'the station; else BAYBOARD_STATION, else the XDG data directory')
    .version(about.version, '-V, --version', 'the version of this program')
    .exitOverride()
    // Before the subcommands are made: each takes a copy.
    .configureOutput({
      writeOut: (text) => void world.stdout.write(text),
      outputError: (text) => complainOfUsage(world, text),
    })
    .configureHelp({ showGlobalOptions: true })
    .addHelpText(
      'after',
      '\nExit status: 0 done; 1 the answer is no (not ready, refused, does not verify); 2 wrong usage; 3 the data cannot be read or written.',
    )
  /** A subcommand that inherits how errors and help are shown. */
  const add = (name: string, description: string, isDefault = false): Command =>
    program.command(name, { isDefault }).description(description).copyInheritedSettings(program)
  const station = (): { station?: string } => program.opts()

  add(
    'board',
    'the full-screen board, or with --text lines (this is the default); without a terminal it prints what status prints',
    true,
  )
    .option(
      '--text',
      'as lines of text with numbered choices, for screen readers and plain terminals; also BAYBOARD_TEXT=1',
    )
    .allowExcessArguments()
    .hook('preAction', (_, { args: [word] }) => {
      if (word !== undefined) program.error(`error: there is no subcommand '${word}'`)
    })
    .action((options: { text?: boolean }) =>
      choose(async (world) => (await import('./board.ts')).board(world, { ...station(), ...options })),
    )
    .addHelpText(
      'after',
      '\nExample: bayboard --text\nA number takes what it stands before, b goes one step back, yes confirms, quit leaves.',
    )

  add('demo', 'make a fresh demonstration station, invented throughout, and open it')
    .argument('[folder]', 'where to make it; else a temporary folder')
    .option('--no-open', 'only make it and print its path')
    .action((folder: string | undefined, options: { open: boolean }) =>
      choose(async (world) => (await import('./board.ts')).demo(world, folder ?? station().station, options)),
    )

  add('init', 'make an empty station')
    .requiredOption('--name <name>', 'the name of the station')
    .requiredOption('--time-zone <zone>', 'its time zone, such as America/New_York')
    .option('--rotation <rotation>', 'which platoon works when', '24/48')
    .option('--starts <time>', 'when a tour starts', '07:00')
    .option('--policy <id>', 'the published base policy')
    .option('--set-demonstration-aside', 'move a demonstration that is in the folder away first')
    .action((options) =>
      choose(async (world) => (await import('./init.ts')).init(world, { ...station(), ...options })),
    )

  add('status', 'every riding position, its state and its reasons, once')
    .option('--json', 'as JSON')
    .option(
      '--at <instant>',
      'judge that instant from what was known then: "2026-11-24 07:00", or with an offset',
    )
    .option('--log <file>', 'judge an exported log (JSON) again from its own evidence; needs no station')
    .action((options) =>
      choose(async (world) => (await import('./status.ts')).status(world, { ...station(), ...options })),
    )

  add('record', 'commands as JSON Lines; one JSON answer a line')
    .option('--file <file>', 'read this file, not the standard input')
    .addHelpText('after', RECORD_EXAMPLES)
    .action((options) =>
      choose(async (world) => (await import('./record.ts')).record(world, { ...station(), ...options })),
    )

  describeTrust(add, station, choose)

  add('export', 'the readiness log of a tour, or a list that import reads again')
    .option('--tour <id>', 'the tour, or last', 'last')
    .option('--list <what>', 'instead of a log: gear, members, cares or fit-tests, as CSV')
    .addOption(new Option('--format <format>', 'text, csv, json or pdf').default('text'))
    .option('--paper <paper>', 'a4 or letter, for a PDF; else by the time zone of the station')
    .option('--out <file>', 'write this file, not the standard output')
    .option('--force', 'replace the file if it is there')
    .addHelpText(
      'after',
      '\nExamples:\n  bayboard export --format pdf --out log.pdf\n  bayboard export --list gear --out gear.csv',
    )
    .action((options, command: Command) =>
      choose(async (world) => {
        if (options.list === undefined)
          return (await import('./export.ts')).exportLog(world, { ...station(), ...options })
        const { format: _, ...asked } = options
        const named = command.getOptionValueSource('format') === 'cli' && { format: options.format }
        return (await import('./export-list.ts')).exportList(world, { ...station(), ...asked, ...named })
      }),
    )

  add('forecast', 'what comes due or ends its life, and when')
    .option('--days <number>', 'how far to look; else a year, or ten years by year')
    .option('--by <what>', 'group by day, month, kind, member, or year: the budget', 'month')
    .option('--format <format>', 'text, csv, json or ics (a calendar)', 'text')
    .option('--prices <file>', 'a price list for the budget: {"currency":"USD","prices":{"coat-shell":1500}}')
    .option('--out <file>', 'write this file, not the standard output')
    .option('--force', 'replace the file if it is there')
    .addHelpText(
      'after',
      '\nExamples:\n  bayboard forecast --days 90 --by member\n  bayboard forecast --by year --prices prices.json\n  bayboard forecast --format ics --out deadlines.ics',
    )
    .action((options) =>
      choose(async (world) => (await import('./forecast.ts')).forecast(world, { ...station(), ...options })),
    )

  describePrint(add('print', 'labels, tags, care slips and records, to print'), station, choose)

  add('history', 'all that happened to one element, member, riding position, rig or tour')
    .argument('<id>')
    .action((id: string) =>
      choose(async (world) => (await import('./history.ts')).history(world, id, station())),
    )

  describeIntake(add, station, choose)
  describeRack(add, station, choose)

  const policy = add('policy', 'the rules in force with their sources; check or adopt an overlay')
  policy
    .command('show', { isDefault: true })
    .description('each rule, its limit, what passing it means and where it comes from')
    .allowExcessArguments()
    .hook('preAction', refuseUnknown)
    .action(() => choose(async (world) => (await import('./policy.ts')).showPolicy(world, station())))
  policy
    .command('check <file>')
    .description('say what is wrong with an overlay, if anything, and what would be looser than the base')
    .action((file: string) =>
      choose(async (world) => (await import('./policy.ts')).checkPolicy(world, file, station())),
    )
  policy
    .command('adopt <file>')
    .description('put an overlay in force')
    .option('--by <member>', 'the id of the member who adopts it')
    .action((file: string, options) =>
      choose(async (world) =>
        (await import('./policy.ts')).adoptPolicy(world, file, { ...station(), ...options }),
      ),
    )

  add(
    'schema',
    'JSON Schema of a command, the journal, the status, the readiness log, the forecast or an overlay',
  )
    .argument('[name]')
    .action((name: string | undefined) =>
      choose(async (world) => (await import('./schema.ts')).schema(world, name)),
    )

  return program
}
