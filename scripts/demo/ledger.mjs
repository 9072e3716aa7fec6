// Collects the demonstration's commands in any order and gives them back in the order of time; it must use no clock and no true randomness.

/** A small seeded generator (mulberry32), so that the invented numbers are the same on every machine. */
function seeded(seed) {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

/** `clock('19:40', 95)` is `'21:15'`. */
export function clock(time, minutes) {
  const [hour, minute] = time.split(':').map(Number)
  const sum = hour * 60 + minute + minutes
  return [Math.floor(sum / 60), sum % 60].map((part) => String(part).padStart(2, '0')).join(':')
}

export const ago = (daysAgo) => ({ daysAgo })

export function ledger() {
  const random = seeded(9_1851)
  const past = []
  const present = []

  /** A whole number from `least` to `most`, both included. */
  const between = (least, most) => least + Math.floor(random() * (most - least + 1))
  const pick = (list) => list[between(0, list.length - 1)]

  /** A command given on an earlier day; the command comes back so that an amendment can name it. */
  const on = (daysAgo, time, by, command) => {
    past.push({ daysAgo, time, command: { do: command.do, by, ...command } })
    return past.at(-1).command
  }
  const minutesAgo = (minutes, by, command) =>
    present.push({ when: { minutesAgo: minutes }, command: { do: command.do, by, ...command } })

  function lines() {
    const ordered = past
      .toSorted((a, b) => b.daysAgo - a.daysAgo || (a.time < b.time ? -1 : a.time > b.time ? 1 : 0))
      .map(({ daysAgo, time, command }) => ({ when: { daysAgo, time }, command }))
    const all = [...ordered, ...present]
    for (const line of all) {
      if (line.command.do !== 'amend') continue
      const { amends, ...command } = line.command
      // The header is event 1, so the command on line n is event n.
      line.command = { ...command, seq: all.findIndex((each) => each.command === amends) + 2 }
    }
    return all
  }

  return { between, pick, on, minutesAgo, lines }
}
