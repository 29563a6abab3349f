import {
  BinaryBitmap,
  Code128Reader,
  DecodeHintType,
  GlobalHistogramBinarizer,
  RGBLuminanceSource,
} from '@zxing/library'

/**
 * Reads Code 128 from a gray picture (0 black, 255 white) with a library other than the one that drew it.
 * @throws when nothing can be read, also for a wrong check digit.
 */
export function decodeCode128(gray: Uint8ClampedArray, width: number, height: number): string {
  const bitmap = new BinaryBitmap(
    new GlobalHistogramBinarizer(new RGBLuminanceSource(gray, width, height)),
  )
  return new Code128Reader().decode(bitmap, new Map([[DecodeHintType.TRY_HARDER, true]])).getText()
}
