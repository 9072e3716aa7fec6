// The shape of an element's record as an auditor asks for it: eleven items, and all else that the journal says of it.
import { z } from 'zod'
import { kindShape } from '../domain/gear.ts'
import { frameShape, sayingShape } from './slip-frame.ts'

/** The eleven items. Source: the record each element has by the published care standard, as public pages report it. */
export const ITEMS = [
  'Issued to, now and before',
  'Date and condition when issued',
  'Maker and model',
  'Serial or lot number',
  'Month and year made',
  'Advanced inspections, dates and findings',
  'Advanced cleanings, dates and findings',
  'Why cleaned and by whom',
  'Repairs: date, by whom, what',
  'Date retired',
  'Date and method of disposal',
] as const

/** Said where nothing of an item is in the journal: never a blank. */
export const NOT_ON_RECORD = 'not on record'

const recordLineShape = sayingShape.extend({
  on: z.string().describe('The day it happened.'),
  words: z.string().describe('As it stands now, after any amendment.'),
  withdrawn: z.boolean().describe('It should never have been recorded; it stays visible.'),
  amended: z.array(sayingShape.extend({ words: z.string() })).describe('Every amendment of it.'),
})

const elementRecordShape = z.strictObject({
  id: z.string(),
  kind: kindShape,
  word: z.string(),
  now: z.string().describe('Where it is and whose, when this was made.'),
  items: z.array(
    z.strictObject({
      item: z.number().int().min(1).max(ITEMS.length),
      title: z.enum(ITEMS),
      onRecord: z.boolean(),
      lines: z.array(recordLineShape),
    }),
  ),
  also: z.array(recordLineShape).describe('All else that the journal says of it, in order.'),
})

export const elementRecordsShape = frameShape.extend({
  record: z.literal('element'),
  format: z.literal(1),
  elements: z.array(elementRecordShape),
})

export type RecordLine = z.infer<typeof recordLineShape>
export type ElementRecord = z.infer<typeof elementRecordShape>
export type ElementRecords = z.infer<typeof elementRecordsShape>
