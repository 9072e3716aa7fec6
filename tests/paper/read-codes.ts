// Reads the bar codes of a picture with decoders that did not make them.
import {
  BarcodeFormat,
  BinaryBitmap,
  DecodeHintType,
  HybridBinarizer,
  MultiFormatReader,
  RGBLuminanceSource,
} from '@zxing/library'
import jsqr from 'jsqr'
import type { Picture } from './read-pdf.ts'

/** A part of a picture, in its own dots. */
export function part({ data, width }: Picture, x: number, y: number, wide: number, high: number): Picture {
  const out = new Uint8ClampedArray(wide * high * 4)
  for (let row = 0; row < high; row++) {
    const from = ((y + row) * width + x) * 4
    out.set(data.subarray(from, from + wide * 4), row * wide * 4)
  }
  return { data: out, width: wide, height: high }
}

export const readQr = ({ data, width, height }: Picture): string | undefined =>
  jsqr(data, width, height, { inversionAttempts: 'dontInvert' })?.data

export function readCode128({ data, width, height }: Picture): string | undefined {
  const grey = new Uint8ClampedArray(width * height)
  for (let at = 0; at < grey.length; at++) grey[at] = data[at * 4]!
  const reader = new MultiFormatReader()
  reader.setHints(
    new Map<DecodeHintType, unknown>([
      [DecodeHintType.POSSIBLE_FORMATS, [BarcodeFormat.CODE_128]],
      [DecodeHintType.TRY_HARDER, true],
    ]),
  )
  try {
    const bitmap = new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(grey, width, height)))
    return reader.decodeWithState(bitmap).getText()
  } catch {
    return undefined
  }
}
