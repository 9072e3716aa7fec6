// `bayboard schema`: JSON Schema of what comes in and goes out, made from the definitions the program itself checks with.
import * as z from 'zod'
import { commandShape } from '../domain/commands.ts'
import { EVENT_TYPES } from '../domain/events.ts'
import { overlayShape } from '../domain/policy/shape.ts'
import { forecastShape } from '../exports/forecast/forecast-shape.ts'
import { coverageShape } from '../exports/coverage.ts'
import { planShape } from '../exports/plan.ts'
import { careSlipShape } from '../exports/care-slip.ts'
import { bagTagsShape, labelsShape, outOfServiceTagsShape } from '../exports/gear-tags.ts'
import { inspectionRecordShape } from '../exports/inspection-record.ts'
import { elementRecordsShape } from '../exports/record-shape.ts'
import { readinessLogShape } from '../exports/readiness-log.ts'
import { statusShape } from '../exports/status.ts'
import { complain, print, type ExitStatus, type World } from './world.ts'

const hash = z.string().regex(/^[0-9a-f]{64}$/)
const journalShape = z.strictObject({
  seq: z.number().int().min(1),
  at: z.string().describe("Instant with the offset of the station's own time zone"),
  by: z.string(),
  type: z.enum(EVENT_TYPES),
  data: z.record(z.string(), z.unknown()),
  prev: hash,
  hash: hash.describe('SHA-256 of the bytes of the line up to, not including, ,"hash":"'),
})

const SCHEMAS: Readonly<Record<string, z.ZodType>> = {
  'bag-tags': bagTagsShape,
  'care-slip': careSlipShape,
  command: commandShape,
  coverage: coverageShape,
  'element-record': elementRecordsShape,
  forecast: forecastShape,
  inspection: inspectionRecordShape,
  journal: journalShape,
  labels: labelsShape,
  'out-of-service-tags': outOfServiceTagsShape,
  overlay: overlayShape,
  plan: planShape,
  'readiness-log': readinessLogShape,
  status: statusShape,
}
const SCHEMA_NAMES = Object.keys(SCHEMAS)

export function schema(world: World, name: string | undefined): ExitStatus {
  const shape = name !== undefined && Object.hasOwn(SCHEMAS, name) ? SCHEMAS[name] : undefined
  if (!shape) {
    const what = name === undefined ? 'Name the schema.' : `There is no schema ${name}.`
    return complain(world, `${what} Choose one of: ${SCHEMA_NAMES.join(', ')}.`, 2)
  }
  print(world, JSON.stringify(z.toJSONSchema(shape, { io: 'input', unrepresentable: 'any' }), null, 2))
  return 0
}
