// The columns of a history of care and of a list of fit tests, and the headings departments give them; it must never match anything.
import { listed } from './columns.ts'

const GEAR_ID = listed(
  'Element, Element #, Element ID, Asset, Asset #, Asset ID, Asset tag, Barcode, Barcode #, Tag, Tag #, Tag ID',
  'Gear #, Gear ID, Item #, Item ID, ID, ID #, Equipment #, Equipment ID, Unit #, Unit ID, Inventory #',
)
const MEMBER_ID = listed(
  'Member, Member #, Member ID, Badge, Badge #, Badge ID, Employee #, Employee ID, Personnel #, Personnel ID',
  'Firefighter #, Firefighter ID, Payroll #, ID, ID #',
)
const RESULT = listed('Result, Results, Outcome, Pass/Fail, Passed, Status, Condition')

export interface RecordSort {
  words: Readonly<Record<string, readonly string[]>>
  /** Without these it is not such a file. */
  telling: readonly string[]
  required: readonly string[]
  /** Said of a required column that is missing. */
  hints: Readonly<Record<string, string>>
}

export const RECORD_SORTS = {
  cares: {
    words: {
      element: GEAR_ID,
      care: listed(
        'Care, Care type, Type of care, Service, Service type, Type of service, Service performed, Work done',
        'Work performed, Activity, Procedure, Event, Event type, Test type, Inspection type, Cleaning type',
      ),
      on: listed(
        'On, Date, Done on, Date done, Care date, Service date, Date of service, Performed on, Date performed',
        'Completed, Completed on, Date completed, Inspection date, Cleaning date',
      ),
      result: RESULT,
      who: listed(
        'Who, By, Done by, Performed by, Completed by, Inspector, Inspected by, Cleaned by, Technician, Vendor, Provider',
      ),
      note: listed('Note, Notes, Remark, Remarks, Comment, Comments, Findings'),
    },
    telling: ['care', 'on'],
    required: ['element', 'care', 'on', 'result'],
    hints: {
      element: 'element (as "Asset #" or "Barcode")',
      care: 'care (as "Service")',
      on: 'on (as "Date")',
      result: 'result (as "Result" or "Pass/Fail")',
    },
  },
  'fit-tests': {
    words: {
      member: MEMBER_ID,
      'facepiece-model': listed(
        'Facepiece model, Face piece model, Mask model, Respirator model, Facepiece, Face piece, Mask, Respirator, Model',
      ),
      'facepiece-size': listed('Facepiece size, Face piece size, Mask size, Respirator size, Size'),
      on: listed(
        'On, Date, Test date, Fit test date, Date of test, Date of fit test, Date tested, Tested on, Fit tested',
      ),
      result: [...RESULT, 'Fit test result', 'Test result'],
    },
    telling: ['facepiece-model', 'on', 'result'],
    required: ['member', 'facepiece-model', 'facepiece-size', 'on', 'result'],
    hints: {
      member: 'member (as "Badge" or "Employee ID")',
      'facepiece-model': 'facepiece-model (as "Mask model")',
      'facepiece-size': 'facepiece-size (as "Mask size")',
      on: 'on (as "Fit test date")',
      result: 'result (as "Pass/Fail")',
    },
  },
} as const satisfies Record<string, RecordSort>

/** What a file holds: gear and members, the cares that were done, or fit tests. */
export type FileSort = 'gear' | keyof typeof RECORD_SORTS
export const FILE_SORTS = ['gear', 'cares', 'fit-tests'] as const satisfies readonly FileSort[]
export type RecordColumn =
  'element' | 'member' | 'care' | 'on' | 'result' | 'who' | 'note' | 'facepiece-model' | 'facepiece-size'
