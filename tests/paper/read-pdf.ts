// Reads PDFs back with a library that did not write them: their words with their places, and their pages as pictures.
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'

interface Piece {
  text: string
  x: number
  /** Of the baseline, from the top of the page. */
  y: number
  width: number
  height: number
}
export interface ReadPage {
  width: number
  height: number
  pieces: Piece[]
}
export interface Picture {
  data: Uint8ClampedArray
  width: number
  height: number
}

const opened = (bytes: Uint8Array) =>
  getDocument({ data: new Uint8Array(bytes), verbosity: 0, isEvalSupported: false }).promise

export async function readPdf(bytes: Uint8Array): Promise<ReadPage[]> {
  const pdf = await opened(bytes)
  const pages: ReadPage[] = []
  for (let at = 1; at <= pdf.numPages; at++) {
    const page = await pdf.getPage(at)
    const [, , width = 0, height = 0] = page.view
    const { items } = await page.getTextContent()
    const pieces = items.flatMap((item): Piece[] => {
      if (!('str' in item) || item.str.trim() === '') return []
      const [, , , , x, up] = item.transform as number[]
      return [{ text: item.str, x: x!, y: height - up!, width: item.width, height: item.height }]
    })
    pages.push({ width, height, pieces })
  }
  await pdf.destroy()
  return pages
}

export const titleOf = async (bytes: Uint8Array): Promise<unknown> => {
  const pdf = await opened(bytes)
  const { info } = await pdf.getMetadata()
  await pdf.destroy()
  return (info as { Title?: string }).Title
}

/** All words of some pages in the order they were printed, without the breaks that columns need. */
export const squeezed = (text: string): string => text.replaceAll(/\s+/g, '')
export const wordsOf = (pages: readonly ReadPage[]): string =>
  squeezed(pages.flatMap(({ pieces }) => pieces.map((each) => each.text)).join(''))

/** What stands outside the margins, or on top of something else; empty on a good page. */
export function misplaced({ width, height, pieces }: ReadPage, margin: number): string[] {
  const outside = pieces.filter(
    (each) =>
      each.x < margin - 0.5 ||
      each.x + each.width > width - margin + 0.5 ||
      each.y - each.height < margin - 2 ||
      each.y > height - margin + 0.5,
  )
  const onTop = pieces.filter((one, at) =>
    pieces
      .slice(at + 1)
      .some(
        (other) =>
          Math.abs(one.y - other.y) < Math.min(one.height, other.height) * 0.6 &&
          one.x < other.x + other.width - 0.5 &&
          other.x < one.x + one.width - 0.5,
      ),
  )
  return [
    ...outside.map((each) => `outside: ${each.text}`),
    ...onTop.map((each) => `on top of another: ${each.text}`),
  ]
}

/** How tall each frame is that is drawn right across a page of the paper; a line has no height. */
export async function framesOf(bytes: Uint8Array): Promise<number[]> {
  const pdf = await opened(bytes)
  const frames: number[] = []
  for (let at = 1; at <= pdf.numPages; at++) {
    const { fnArray, argsArray } = await (await pdf.getPage(at)).getOperatorList()
    fnArray.forEach((operation, each) => {
      if (operation !== OPS.constructPath) return
      const [left, top, right, bottom] = argsArray[each][2] as [number, number, number, number]
      if (right - left > 400 && Math.abs(bottom - top) > 5) frames.push(Math.abs(bottom - top))
    })
  }
  await pdf.destroy()
  return frames
}

/** Pages can be drawn only where the optional drawing library is installed. */
export const canvas = await import('@napi-rs/canvas').catch(() => undefined)

/** A page as a picture, `scale` dots to the point. */
export async function pictureOf(bytes: Uint8Array, at: number, scale: number): Promise<Picture> {
  const pdf = await opened(bytes)
  const page = await pdf.getPage(at)
  const viewport = page.getViewport({ scale })
  const [width, height] = [Math.ceil(viewport.width), Math.ceil(viewport.height)]
  const drawing = canvas!.createCanvas(width, height)
  const context = drawing.getContext('2d')
  await page.render({ canvas: null, canvasContext: context as never, viewport }).promise
  const { data } = context.getImageData(0, 0, width, height)
  await pdf.destroy()
  return { data: new Uint8ClampedArray(data), width, height }
}

/** A page as lines of text, top to bottom, each piece a gap apart: for a person to read. */
export function linesOf({ pieces }: ReadPage): string[] {
  const rows = new Map<number, Piece[]>()
  for (const piece of pieces) {
    const row = [...rows.keys()].find((y) => Math.abs(y - piece.y) < 2) ?? piece.y
    rows.set(row, [...(rows.get(row) ?? []), piece])
  }
  return [...rows]
    .toSorted(([one], [other]) => one - other)
    .map(([, row]) =>
      row
        .toSorted((one, other) => one.x - other.x)
        .map((each) => each.text)
        .join('   '),
    )
}
