// The subcommands that keep the journal believable: verify, seal, key and pin; what each one does stands in its own file.
import type { Add, Work } from './program.ts'
import { refuseUnknown } from './refuse-unknown.ts'

export function describeTrust(
  add: Add,
  station: () => { station?: string },
  choose: (work: Work) => void,
): void {
  add('verify', 'check every line of the journal, its chain and its seals')
    .option('--json', 'as JSON')
    .option('--against <seal...>', 'seals kept elsewhere, or exported logs (text, CSV or JSON)')
    .option('--key <key>', 'the public key, where it is known from elsewhere; or a file of it')
    .addHelpText(
      'after',
      '\nExample: bayboard verify --against ~/paper/2026-11-24-B.note\nIt tells whether the journal was shortened or written anew since, and from which line on.',
    )
    .action((options) =>
      choose(async (world) => (await import('./verify.ts')).verify(world, { ...station(), ...options })),
    )

  add('seal', 'make the seals that hand-overs are still without, and show the newest')
    .addHelpText('after', '\nExample: bayboard seal | lp')
    .action(() => choose(async (world) => (await import('./seal.ts')).seal(world, station())))

  const key = add('key', 'the key that seals are signed with')
  key
    .command('show', { isDefault: true })
    .description('show the public key')
    .allowExcessArguments()
    .hook('preAction', refuseUnknown)
    .action(() => choose(async (world) => (await import('./key.ts')).showKey(world, station())))
  key
    .command('make')
    .description('make a new key; the old one vouches for it where it is still there')
    .option('--by <member>', 'the id of the member who makes it')
    .option('--why <words>', 'why the key in force is replaced')
    .option('--replace', 'make it although the key in force still works')
    .addHelpText(
      'after',
      '\nExample: bayboard key make --replace --by M-104 --why "the old machine was sold"',
    )
    .action((options) =>
      choose(async (world) => (await import('./key.ts')).makeKey(world, { ...station(), ...options })),
    )

  const pin = add('pin', 'the PIN that hand-over, read-back and policy adoption ask a member for')
  pin
    .command('set')
    .description(
      "set your PIN; a terminal asks for it without showing it, a pipe gives the old one (or for a first one that of the tour's officer), if there is one, and the new one",
    )
    .requiredOption('--by <member>', 'your own id')
    .addHelpText('after', '\nExample: bayboard pin set --by M-104')
    .action((options) =>
      choose(async (world) => (await import('./pin.ts')).setPin(world, { ...station(), ...options })),
    )
  pin
    .command('clear <member>')
    .description('clear a PIN that its member has forgotten; the log shows it')
    .requiredOption('--by <member>', 'your own id')
    .requiredOption('--why <words>', 'why it is cleared')
    .addHelpText('after', '\nExample: bayboard pin clear M-104 --by M-207 --why forgotten')
    .action((member: string, options) =>
      choose(async (world) =>
        (await import('./pin.ts')).clearPin(world, member, { ...station(), ...options }),
      ),
    )
}
