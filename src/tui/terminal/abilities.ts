// Says what a terminal can be asked to show, from its environment alone; it must never write to it.

export type Colour = 'none' | 'ansi'
export type Abilities = { colour: Colour; unicode: boolean; canBoard: boolean; why?: string }
type Environment = Readonly<Record<string, string | undefined>>
type Stream = { readonly isTTY?: boolean | undefined }

/** Is the locale one in which the symbols can be shown? */
export const hasUnicode = (env: Environment): boolean =>
  /utf-?8/i.test(env['LC_ALL'] || env['LC_CTYPE'] || env['LANG'] || '')

/** `input` is the keyboard's stream, where it differs from the output. A refusal says why in words for the user. */
export function glassAbilities(env: Environment, output: Stream, input: Stream = output): Abilities {
  const isDumb = env['TERM'] === 'dumb'
  // NO_COLOR counts when it is present and not empty, whatever its value (no-color.org).
  const colour = isDumb || env['NO_COLOR'] || !output.isTTY ? 'none' : 'ansi'
  const abilities = { colour, unicode: hasUnicode(env) } as const
  const why = refusal(isDumb, output, input)
  return why === undefined ? { ...abilities, canBoard: true } : { ...abilities, canBoard: false, why }
}

function refusal(isDumb: boolean, output: Stream, input: Stream): string | undefined {
  if (!output.isTTY) return 'The output is not a terminal, so there is no screen for the board.'
  if (!input.isTTY) return 'The input is not a terminal, so the board could not read keys.'
  if (isDumb) return 'TERM is "dumb": this terminal cannot hold a full-screen board.'
  return undefined
}
