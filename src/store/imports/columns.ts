// The columns an import knows and the headings departments give them; it holds words only and must never match anything.

/**
 * `words`: headings in any file; `ofGear` and `ofMembers`: headings in a file that has a kind column, or has none.
 * The lists of `Perhaps` hold headings taken only when no surer heading claims the column. Case, spaces and punctuation
 * do not count; "#" also stands for "No", "Num", "Nr" and "Number".
 */
export interface ColumnWords {
  words?: readonly string[]
  ofGear?: readonly string[]
  ofMembers?: readonly string[]
  ofGearPerhaps?: readonly string[]
  ofMembersPerhaps?: readonly string[]
}

/** Words written in a row, a comma between them. */
export const listed = (...words: string[]): string[] => words.flatMap((line) => line.split(', '))

const sizeOf = (...names: string[]): ColumnWords => ({
  words: names.map((name) => `${name} size`),
  ofMembers: names,
})

export const COLUMNS = {
  id: {
    words: ['ID', 'ID #', 'Identifier'],
    ofGear: listed(
      'Asset, Asset #, Asset ID, Asset tag, Asset tag #, Barcode, Barcode #, Tag, Tag #',
      'Tag ID, Element, Element #, Element ID, Gear #, Gear ID, Item #, Item ID',
      'Inventory #, Inventory ID, Equipment #, Equipment ID, Unit #, Unit ID',
    ),
    ofMembers: listed(
      'Badge, Badge #, Badge ID, Employee #, Employee ID, Emp #, Emp ID, Member #',
      'Member ID, Personnel #, Personnel ID, Payroll #, Firefighter #, Firefighter ID',
    ),
    ofMembersPerhaps: ['Employee', 'Member', 'Firefighter'],
  },
  kind: {
    ofGear: listed(
      'Kind, Type, Item, Category, Item type, Gear type, Element type, Equipment type',
      'Gear, Garment, Garment type, Type of gear',
    ),
    ofGearPerhaps: ['Description', 'Item description', 'Equipment'],
  },
  maker: {
    ofGear: ['Maker', 'Manufacturer', 'Mfr', 'Mfg', 'Make', 'Made by', 'Brand'],
    ofGearPerhaps: ['Vendor'],
  },
  model: { ofGear: ['Model', 'Model #', 'Model name', 'Style', 'Style #'] },
  serial: { ofGear: ['Serial', 'Serial #', 'S/N', 'Ser #', 'Serial ID', 'Mfg serial #', 'Mfr serial #'] },
  size: { ofGear: ['Size', 'Gear size', 'Garment size', 'Item size'] },
  made: {
    ofGear: listed(
      'Made, Made on, Date made, Mfg date, Mfr date, Date of mfg, Manufactured, DOM',
      'Date of manufacture, Manufacture date, Manufactured date, Date manufactured',
      'Manufacturing date, Production date, Build date',
    ),
  },
  edition: {
    ofGear: ['Edition', 'Standard', 'Standard edition', 'NFPA', 'NFPA edition', 'NFPA standard'],
    ofGearPerhaps: ['Certification', 'Certified to'],
  },
  assembly: { ofGear: ['Assembly', 'Assembly #', 'Assembly ID', 'Set', 'Set #', 'Set ID'] },
  'in-service': {
    ofGear: listed(
      'In service, In service date, In service since, Date in service, Placed in service',
      'Date placed in service, Put in service, Service date, First use, In use since',
    ),
  },
  'issued-to': {
    ofGear: listed(
      'Issued to, Assigned to, Assigned, Assignee, Holder, Wearer, Owner, Issued to ID',
      'Assigned to ID, Badge, Badge #, Employee #, Employee ID, Member #, Member ID',
    ),
    ofGearPerhaps: ['Employee', 'Member', 'Firefighter'],
  },
  'issued-on': {
    ofGear: listed(
      'Issue date, Issued date, Issued on, Date issued, Date of issue, Assigned on',
      'Date assigned, Assigned date, Assignment date',
    ),
  },
  'rated-psi': {
    ofGear: ['Rated pressure', 'Service pressure', 'Working pressure', 'Rated psi', 'Cylinder pressure'],
    ofGearPerhaps: ['Pressure', 'PSI', 'Rating'],
  },
  construction: { ofGear: ['Construction', 'Cylinder construction', 'Material', 'Cylinder material'] },
  name: {
    words: ['Name', 'Full name', 'Member name', 'Employee name', 'Firefighter name'],
    ofMembersPerhaps: ['Employee', 'Member', 'Firefighter'],
  },
  'first-name': { words: ['First name', 'Given name', 'Forename'], ofMembers: ['First'] },
  'last-name': { words: ['Last name', 'Surname', 'Family name'], ofMembers: ['Last'] },
  rank: { words: ['Rank', 'Grade'], ofMembers: ['Title'] },
  platoon: { words: ['Platoon', 'Shift'], ofMembers: ['Group'] },
  'coat-size': sizeOf('Coat', 'Jacket'),
  'trouser-size': sizeOf('Trouser', 'Trousers', 'Pant', 'Pants'),
  'helmet-size': sizeOf('Helmet'),
  'hood-size': sizeOf('Hood'),
  'glove-size': sizeOf('Glove', 'Gloves'),
  'boot-size': sizeOf('Boot', 'Boots'),
  'facepiece-size': sizeOf('Facepiece', 'Face piece', 'Mask'),
} as const satisfies Record<string, ColumnWords>

export type ColumnName = keyof typeof COLUMNS
export const COLUMN_NAMES = Object.keys(COLUMNS) as ColumnName[]
/** The target that leaves a heading of the file out. */
export const UNUSED = 'unused'
