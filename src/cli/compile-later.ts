// Has a start that is over in a blink compile less of itself; it must never set a switch that this V8 may not know.
import { setFlagsFromString } from 'node:v8'

/** The line of V8 that knows this switch, and has no cheaper compiler in between: that of Node 20. A later one would complain on the glass. */
const KNOWS_IT = /^11\./

/**
 * How much a function has to have run before it is compiled to optimised machine code, in bytes of bytecode; usual is what
 * Node 20 begins with. Judging 200 riding positions once is over before that code is ready, and compiling it took half of the time.
 */
const [LATER, USUAL] = [500_000, 67_584]
const budget = (bytes: number): string => `--interrupt-budget=${bytes}`

/** Until the first turn of the event loop: the first frame is painted by then, and keys are answered faster as usual. */
export function compileLater(v8: string, set: (flag: string) => void = setFlagsFromString): void {
  if (!KNOWS_IT.test(v8)) return
  set(budget(LATER))
  setImmediate(() => set(budget(USUAL)))
}
