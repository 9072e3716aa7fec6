// Keeps a cell from acting as a formula where it is opened, so that it can be read back as it was; it must never change another cell.

/** What spreadsheets take for the start of a formula. Source: OWASP, "CSV Injection", with the full-width and small forms. */
const FORMULA = '[=+\\-@\\t\\r\\uff1d\\uff0b\\uff0d\\uff20\\ufe62\\ufe63\\ufe66\\ufe6b]'
const ACTS = new RegExp(`^'*${FORMULA}`)

export const isFormula = (cell: string): boolean => ACTS.test(cell)

/** An apostrophe stands before it; one that stood there already gets another, so that taking one away gives it back. */
export const neutral = (cell: string): string => (isFormula(cell) ? `'${cell}` : cell)
