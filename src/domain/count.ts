// Makes words agree with a number, and names of a list with each other; the one place that does.

/** @example count(1, 'swap') // '1 swap'; count(2, 'body', 'bodies') // '2 bodies' */
export const count = (number: number, one: string, many = `${one}s`): string =>
  `${number} ${number === 1 ? one : many}`

/** @example listed(['Engine 6', 'Ladder 6', 'Rescue 6']) // 'Engine 6, Ladder 6 and Rescue 6' */
export const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join() : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`

/** Of a file that was refused: how many faults, and what to do. @example toMend(1, "import") // "Put it right and import it again." */
export const toMend = (faults: number, again: string): string =>
  `Put ${faults === 1 ? 'it' : 'them'} right and ${again} it again.`
