// What a key does on the coverage: it scrolls or goes back. It never records.
import type { Token } from '../input/keys.ts'
import { lastTopOf } from '../panels/coverage.ts'
import type { Ui, Updated } from '../ui-state.ts'
import type { View } from '../view.ts'
import { scrolled } from './scroll.ts'

export const updateCoverage = (ui: Ui, token: Token, view: View): Updated =>
  'key' in token && token.key === 'escape'
    ? { ui: { ...ui, screen: 'board', top: 0 } }
    : { ui: { ...ui, top: scrolled(ui.top, token, lastTopOf(view, view.size)) } }
