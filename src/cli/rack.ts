// The subcommands about the rack, `plan` and `coverage`, and what their help says; what each does stands in its own file.
import type { Command } from 'commander'
import type { Work } from './program.ts'

export function describeRack(
  add: (name: string, description: string) => Command,
  station: () => { station?: string },
  choose: (work: Work) => void,
): void {
  add('plan', 'the best use of the rack for all unfit riding positions at once, proven; it records nothing')
    .option('--json', 'as JSON, with the swap commands that record takes')
    .option('--seconds <n>', 'how long it may take', '10')
    .addHelpText(
      'after',
      `
In strict order it makes the most of: rigs that can ride, critical positions, riding positions, exact fits, few swaps,
days in date, rare sizes left on the rack. For each position left unfit it says what is short.

Exit status: 0 everybody seated is fit, or would be with the plan; 1 somebody stays unfit; 3 the data cannot be read.

Example, to carry the whole plan out:
  bayboard plan --json | jq -c '.seats[].swaps[].commands[] + {by: "M-104"}' | bayboard record`,
    )
    .action((options) =>
      choose(async (world) => (await import('./plan.ts')).plan(world, { ...station(), ...options })),
    )

  add(
    'coverage',
    'for each riding position and kind the spares that fit, and what to buy first; it records nothing',
  )
    .option('--json', 'as JSON')
    .addHelpText(
      'after',
      `
Exit status: 0 any one element in use can be replaced from the rack; 1 somebody would be left without, or nobody is
seated; 3 the data cannot be read.

Example, the riding positions that one loss leaves without a coat:
  bayboard coverage --json | jq -r '.holes[] | select(.kind == "coat-shell") | .seat'`,
    )
    .action((options) =>
      choose(async (world) => (await import('./coverage.ts')).coverage(world, { ...station(), ...options })),
    )
}
