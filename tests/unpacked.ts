// A state from its parts, where none of them is spoilt.
import type { State } from '../src/domain/state.ts'
import { unpack, type Parts } from '../src/store/packed-state.ts'

export const unpacked = (parts: Parts): State | undefined =>
  unpack(parts, () => {
    throw new Error('All that was packed should have been found.')
  })?.state
