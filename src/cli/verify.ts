// `bayboard verify`: checks every line and the chain and reports every fault with its line; it must never repair.
import { verifyJournal } from '../store/verify.ts'
import { complain, print, stationFolder, type ExitStatus, type World } from './world.ts'

interface VerifyOptions {
  station?: string
  json?: boolean
}

export function verify(world: World, options: VerifyOptions): ExitStatus {
  const folder = stationFolder(world, options.station)
  const isWatched = world.stderr.isTTY && !options.json
  const verified = verifyJournal(folder, {
    ...(isWatched && {
      onProgress: (done, total) => world.stderr.write(`\rChecked ${Math.floor((done / total) * 100)}% `),
    }),
  })
  if (isWatched) world.stderr.write('\r')
  if (verified.kind === 'no-station') {
    return complain(world, `There is no station in ${folder}. Make one with "bayboard init".`, 3)
  }
  if (verified.kind === 'unreadable') return complain(world, verified.sentence, 3)
  const { lines, head, faults, torn } = verified
  const holds = faults.length === 0
  if (options.json) {
    print(world, JSON.stringify({ verifies: holds, lines, head: head.hash, faults, torn: torn ?? null }))
    return holds ? 0 : 1
  }
  for (const { line, what } of faults) print(world, `Line ${line}: ${what}`)
  if (torn) {
    print(
      world,
      `After the last line stand ${torn.bytes} bytes of an unfinished one. The next start sets them aside.`,
    )
  }
  print(
    world,
    holds
      ? `The journal verifies: ${lines} lines, head ${head.hash}.`
      : `The journal does not verify: ${faults.length} ${faults.length === 1 ? 'fault' : 'faults'} in ${lines} lines. Nothing was repaired. Keep a copy of ${folder}, and bring back a good copy of it.`,
  )
  return holds ? 0 : 1
}
