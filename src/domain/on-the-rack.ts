// An element as its label alone tells it, on the rack and issued to nobody; nothing may have happened to it yet.
import type { ElementFacts } from './gear.ts'
import type { Custody, Element } from './state.ts'

/** One for all, so that a whole ensemble is asked for it at the cost of one. */
export const RACK: Custody = { where: 'rack' }

/** @param seq the event that added it; 0 for one that is on no book and only judged */
export const onTheRack = (facts: ElementFacts, seq: number): Element => ({
  ...facts,
  seq,
  issuedTo: null,
  issuedOn: null,
  custody: RACK,
  tags: [],
  cares: [],
  exposures: [],
  readings: [],
})
