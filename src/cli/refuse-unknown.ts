// Refuses a word after a subcommand that has subcommands of its own; it must never run the one that is the default instead.
import type { Command } from 'commander'

/** For the subcommand that stands for its parent: what it was given names none of its brothers. */
export function refuseUnknown(command: Command): void {
  const [unknown] = command.args
  if (unknown === undefined) return
  const known = command.parent!.commands.map((each) => each.name()).join(', ')
  command.error(`error: there is no '${unknown}' here. Choose one of: ${known}`)
}
