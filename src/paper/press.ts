// A blank PDF document to print on: its pages, letters and measures; it must never read a file or a clock, nor know what it prints.
import Pdf from 'pdfkit'

/** The letters as bytes: everything printed is set in these two. */
export interface Fonts {
  regular: Uint8Array
  bold: Uint8Array
}

/** Paper in points, 72 to the inch. Source: ISO 216 A4 (210 x 297 mm) and the 8.5 x 11 inch letter sheet. */
export const PAPERS = {
  a4: { width: 595.28, height: 841.89 },
  letter: { width: 612, height: 792 },
} as const
export type Paper = keyof typeof PAPERS

/** Points in a millimetre. */
export const MM = 72 / 25.4

export interface Face {
  size: number
  bold?: boolean
}
/** From the top of one line to the top of the next. */
export const lineHeight = ({ size }: Face): number => size * 1.2

export interface Press {
  readonly width: number
  readonly height: number
  readonly doc: PDFKit.PDFDocument
  /** How many pages there are; the newest is the one printed on. */
  pages(): number
  newPage(): void
  /** What of a text these letters hold, each other letter as a visible replacement. */
  printable(text: string): string
  widthOf(text: string, face: Face): number
  /** One line with its top left corner there; it is never broken. */
  write(text: string, x: number, y: number, face: Face): void
  /** Letters that could not be printed so far. */
  replaced(): number
  /** Prints on each page by its number, then gives the bytes. */
  finish(onPage: (page: number, of: number) => void): Promise<Buffer>
}

interface Sheet {
  fonts: Fonts
  paper: Paper
  title: string
  /** The instant that the document says it was made at. */
  at: string
}

/** Written from right to left: set in the wrong order it would read as another name, so it is not set at all. */
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefe\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u
export const REPLACEMENT = '\ufffd'
export const SAY_REPLACED = `${REPLACEMENT} stands for a letter that this paper cannot print. The data exports and the journal have it.`

const letters = new Intl.Segmenter('en', { granularity: 'grapheme' })

/** The library keeps what a font holds behind a member without a declared type. */
type Holding = { _font: { font: { hasGlyphForCodePoint(code: number): boolean } } }

export function openPress({ fonts, paper, title, at }: Sheet): Press {
  const { width, height } = PAPERS[paper]
  const doc = new Pdf({
    size: [width, height],
    margin: 0,
    bufferPages: true,
    // None of the built-in fonts, which would be looked for in files of their own.
    font: '',
    lang: 'en',
    displayTitle: true,
    info: { Title: title, Creator: 'Bayboard', CreationDate: new Date(Date.parse(at)) },
  })
  doc.registerFont('regular', Buffer.from(fonts.regular))
  doc.registerFont('bold', Buffer.from(fonts.bold))
  doc.font('regular')
  const { font } = (doc as unknown as Holding)._font
  let pages = 1
  let replaced = 0

  const isHeld = (letter: string): boolean =>
    !RIGHT_TO_LEFT.test(letter) &&
    Array.from(letter).every((each) => font.hasGlyphForCodePoint(each.codePointAt(0)!))
  const take = ({ size, bold = false }: Face) => doc.font(bold ? 'bold' : 'regular').fontSize(size)

  return {
    width,
    height,
    doc,
    pages: () => pages,
    newPage() {
      doc.addPage()
      pages += 1
    },
    printable: (text) =>
      Array.from(letters.segment(text), ({ segment }) => {
        if (isHeld(segment)) return segment
        replaced += 1
        return REPLACEMENT
      }).join(''),
    widthOf: (text, face) => take(face).widthOfString(text),
    write(text, x, y, face) {
      take(face).text(text, x, y, { lineBreak: false })
    },
    replaced: () => replaced,
    finish(onPage) {
      for (let page = 1; page <= pages; page++) {
        doc.switchToPage(page - 1)
        onPage(page, pages)
      }
      return new Promise((resolve, reject) => {
        const parts: Buffer[] = []
        doc.on('data', (part: Buffer) => parts.push(part))
        doc.on('error', reject)
        doc.on('end', () => resolve(Buffer.concat(parts)))
        doc.end()
      })
    },
  }
}
