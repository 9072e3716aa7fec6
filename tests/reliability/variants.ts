// Stores that are broken on purpose, each by an exact change of the program's own text, with the check that has to find it; a change that no longer fits is an error.
import * as check from './checks.ts'
import type { Check } from './checks.ts'

export type Variant = {
  /** What it does wrong, after "a store that". */
  does: string
  changes: readonly { file: string; from: string; to: string }[]
  caughtBy: Check
}

const line = 'src/store/line.ts'
const append = 'src/store/append.ts'

export const VARIANTS: readonly Variant[] = [
  {
    does: 'never syncs what it wrote',
    changes: [{ file: append, from: 'files.fdatasync(fd)', to: '' }],
    caughtBy: check.powerLoss(1, 5),
  },
  {
    does: 'acknowledges before the sync',
    changes: [
      {
        file: append,
        from: 'files.fdatasync(fd)',
        to: 'setTimeout(() => { try { files.fdatasync(fd) } catch {} }, 1)',
      },
    ],
    caughtBy: check.orderOfCalls,
  },
  {
    does: 'never syncs the name of what it sets aside',
    changes: [{ file: 'src/store/torn-tail.ts', from: 'files.syncFolder(folder)', to: '' }],
    caughtBy: check.powerLoss(5, 8),
  },
  {
    does: 'overlooks a short write',
    changes: [
      { file: append, from: 'if (written !== bytes.length) throw shortWrite(written, bytes.length)', to: '' },
      { file: append, from: 'if (files.fstat(fd).size !== from + bytes.length) {', to: 'if (false) {' },
    ],
    caughtBy: check.oneFault,
  },
  {
    does: 'tries a failed sync again',
    changes: [
      {
        file: append,
        from: 'files.fdatasync(fd)',
        to: 'try { files.fdatasync(fd) } catch { files.fdatasync(fd) }',
      },
    ],
    caughtBy: check.oneFault,
  },
  {
    does: 'goes on after a failed write',
    changes: [
      {
        file: 'src/store/open-file.ts',
        from: "if (file.failure !== undefined) return { ok: false, why: 'failed', sentence: file.failure }",
        to: '',
      },
      {
        file: 'src/store/journal.ts',
        from: 'return file.failure ?? readOnlyReason(file)',
        to: 'return readOnlyReason(file)',
      },
    ],
    caughtBy: check.oneFault,
  },
  {
    does: 'has no lock',
    changes: [
      {
        file: 'src/store/lock.ts',
        from: 'const release = await acquirePatiently(acquire, giveUpAt)',
        to: 'const release: Acquired = { give: async () => undefined }; void acquire',
      },
    ],
    caughtBy: check.oneAtATime,
  },
  {
    does: 'begins while another has the lock',
    changes: [
      { file: 'src/store/kept-lock.ts', from: 'if (!take()) return withLock(folder, work)', to: 'take()' },
    ],
    caughtBy: check.oneAtATime,
  },
  {
    does: 'does not look at the head again under the lock',
    changes: [
      {
        file: 'src/session.ts',
        from: 'function takeTurn(right: AppendRight): void {\n    catchUp()',
        to: 'function takeTurn(right: AppendRight): void {',
      },
      { file: append, from: 'if (size !== from) return false', to: '' },
      { file: append, from: 'if (files.fstat(fd).size !== from + bytes.length) {', to: 'if (false) {' },
    ],
    caughtBy: check.headAgain,
  },
  {
    does: 'repairs by dropping a bad line',
    changes: [
      {
        file: 'src/store/catch-up.ts',
        from: 'if (!checked.ok) {',
        to: 'if (!checked.ok) return true\n      if (!checked.ok) {',
      },
      {
        file: line,
        from: 'if (frame.seq !== expectedSeq) return',
        to: 'if (frame.seq !== expectedSeq && frame.seq < 0) return',
      },
      {
        file: line,
        from: 'if (frame.prev !== expectedPrev) return',
        to: 'if (frame.prev !== expectedPrev && frame.seq < 0) return',
      },
    ],
    caughtBy: check.damage,
  },
  {
    does: 'takes damage for a tear and cuts it off',
    changes: [
      {
        file: 'src/store/catch-up.ts',
        from: 'isHalfWritten: isLast && lacksSectors(bytes, offset)',
        to: 'isHalfWritten: true || (isLast && lacksSectors(bytes, offset))',
      },
      {
        file: 'src/store/torn-tail.ts',
        from: 'if (tail.at(-1) === 10 && !lacksSectors(tail.subarray(0, -1), offset)) return behind',
        to: '',
      },
    ],
    caughtBy: check.damage,
  },
  {
    does: 'cuts a torn tail off without keeping it',
    changes: [
      {
        file: 'src/store/torn-tail.ts',
        from: 'writeNewFile(file.files, path, tail)',
        to: 'writeNewFile(file.files, path, tail.subarray(0, 0))',
      },
    ],
    caughtBy: check.tornTail(40),
  },
  {
    does: 'checks the last hash only',
    changes: [
      { file: line, from: 'if (frame.own !== frame.stated) return { ok: false, what: WRONG_HASH }', to: '' },
    ],
    caughtBy: check.bitFlips(4, 7),
  },
  {
    does: 'leaves a field out of the hash',
    changes: [
      { file: line, from: 'const own = sha256(body)', to: 'const own = sha256(body.slice(50))' },
      {
        file: line,
        from: 'own: sha256(bytes.subarray(0, length - HASH_PART)),',
        to: 'own: sha256(bytes.subarray(50, length - HASH_PART)),',
      },
      {
        file: line,
        from: 'const own = sha256(bytes.subarray(0, length - HASH_PART))',
        to: 'const own = sha256(bytes.subarray(50, length - HASH_PART))',
      },
    ],
    caughtBy: check.bitFlips(4, 7),
  },
  {
    does: 'orders by the clock',
    changes: [
      {
        file: 'src/store/station.ts',
        from: 'const caught = journal.catchUp((entry) => reader.take(entry, deliver))',
        to: 'const all: Entry[] = []; const caught = journal.catchUp((entry) => { all.push(entry) }); for (const entry of all.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))) reader.take(entry, deliver)',
      },
    ],
    caughtBy: check.clockSteps,
  },
  {
    does: 'writes controls raw into the journal',
    changes: [{ file: line, from: 'const ESCAPED = /[', to: 'const ESCAPED = /(?!)[' }],
    caughtBy: check.escapes,
  },
  {
    does: 'shows controls raw',
    changes: [{ file: 'src/domain/clean.ts', from: ".replace(UNSAFE, '')", to: '' }],
    caughtBy: check.escapes,
  },
  {
    does: 'lets a cell of CSV act as a formula',
    changes: [{ file: 'src/exports/csv.ts', from: 'cast: { string: neutral },', to: '' }],
    caughtBy: check.formulas,
  },
  {
    does: 'does not check who signed a seal',
    changes: [
      {
        file: 'src/store/seals/note.ts',
        from: "if (!holds(parsed.text, own.signature, key)) return { kind: 'altered', vkey }",
        to: '',
      },
    ],
    caughtBy: check.seals,
  },
  {
    does: 'does not compare the length of a seal',
    changes: [
      {
        file: 'src/store/seals/check-seals.ts',
        from: 'if (count > lines) {',
        to: 'if (count > lines) return { ...check, holds: true, what: "", from: null }\n    if (count > lines) {',
      },
    ],
    caughtBy: check.seals,
  },
]
