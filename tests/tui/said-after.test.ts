// A hand-over that is recorded stands: what became of its seal and its log is said, and never takes it back.
import { expect, test } from 'vitest'
import { sayLog, saySealed } from '../../src/tui/said-after.ts'
import { startUi, type Ui } from '../../src/tui/ui-state.ts'

const said = { text: 'Tour T-1 is handed over.', tone: 'good' } as const
const ui: Ui = { ...startUi, message: said }
const after = (seal: Parameters<typeof saySealed>[1], log: Parameters<typeof sayLog>[2]) => {
  const sealed = saySealed(ui, seal)
  return sayLog(sealed, sealed.message!, log).message
}

test('both are said where both were made', () => {
  expect(after({ path: 'seals/T-1' }, { path: 'exports/T-1.pdf' })).toEqual({
    text: 'Tour T-1 is handed over. It is sealed. Its log is in exports/T-1.pdf',
    tone: 'good',
  })
})

test('a seal that failed is bad news beside a log that was made', () => {
  expect(after({ failed: 'The key is lost.' }, { path: 'exports/T-1.pdf' })).toEqual({
    text: 'Tour T-1 is handed over. The key is lost. Its log is in exports/T-1.pdf',
    tone: 'bad',
  })
})

test.each([
  [{ refused: 'The disk is full.' }, ' The disk is full.'],
  [undefined, ''],
])('a log that failed says that the hand-over is safe and which key exports again: %j', (made, why) => {
  expect(after({ path: 'seals/T-1' }, made)).toEqual({
    text: `Tour T-1 is handed over. It is sealed. That is safe, but its log could not be exported; x exports it again.${why}`,
    tone: 'bad',
  })
})

test('where nothing is sealed nothing is said of a seal', () => {
  expect(saySealed(ui, undefined)).toBe(ui)
})
