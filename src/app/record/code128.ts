import encoder from 'jsbarcode/bin/barcodes/CODE128/CODE128_AUTO.js'

const Encoder = 'default' in encoder ? encoder.default : encoder

/** One dark bar, in modules from the left edge of the symbol. */
export interface Bar {
  readonly x: number
  readonly width: number
}

export interface BarcodeModel {
  readonly text: string
  readonly bars: readonly Bar[]
  /** Whole width in modules, without the quiet zones. */
  readonly modules: number
}

/** Light modules that must stay free on either side. Ten: ISO/IEC 15417, from memory. */
export const QUIET_MODULES = 10

/**
 * Code 128 of a specimen number, digits packed in pairs where that is shorter.
 * @throws RangeError for text that Code 128 cannot hold.
 */
export function code128(text: string): BarcodeModel {
  if (!/^[\x20-\x7e]+$/.test(text)) {
    throw new RangeError(
      `Code 128 cannot hold ${JSON.stringify(text)}: plain letters and digits only.`,
    )
  }
  const { data } = new Encoder(text, {}).encode()
  const bars: Bar[] = [...data.matchAll(/1+/g)].map((run) => ({
    x: run.index,
    width: run[0].length,
  }))
  return { text, bars, modules: data.length }
}
