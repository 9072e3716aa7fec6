// Tells the plain ways of opening the board from everything else; whatever it is not sure of it leaves to the table of subcommands.

/** `bayboard`, `bayboard board` and either with `--station FOLDER`. */
export function asksForBoard(argv: readonly string[]): { station?: string } | undefined {
  const rest = argv[0] === 'board' ? argv.slice(1) : argv
  if (rest.length === 0) return {}
  const [name, station] = rest
  return rest.length === 2 && name === '--station' && station && !station.startsWith('-')
    ? { station }
    : undefined
}
