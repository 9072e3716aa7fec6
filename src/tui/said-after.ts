// What is said of the seal and the exported log once a tour is handed over: the hand-over stands, whatever became of them.
import type { Sealed } from '../session.ts'
import type { Ui } from './ui-state.ts'

export type Exported = { path: string } | { refused: string }

export function saySealed(ui: Ui, seal: Sealed | undefined): Ui {
  if (!seal || !ui.message) return ui
  const { text, tone } = ui.message
  return 'path' in seal
    ? { ...ui, message: { text: `${text} It is sealed.`, tone } }
    : { ...ui, message: { text: `${text} ${seal.failed}`, tone: 'bad' } }
}

/** `made` is undefined where the export broke off. */
export function sayLog(ui: Ui, said: NonNullable<Ui['message']>, made: Exported | undefined): Ui {
  const { text, tone } = said
  if (made && 'path' in made) return { ...ui, message: { text: `${text} Its log is in ${made.path}`, tone } }
  const why = made ? ` ${made.refused}` : ''
  const words = `${text} That is safe, but its log could not be exported; x exports it again.${why}`
  return { ...ui, message: { text: words, tone: 'bad' } }
}
