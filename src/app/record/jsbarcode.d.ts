/** The encoder inside jsbarcode, used without the part that needs a document. It comes without types. */
declare module 'jsbarcode/bin/barcodes/CODE128/CODE128_AUTO.js' {
  interface Encoder {
    valid(): boolean
    encode(): { readonly text: string; readonly data: string }
  }
  type EncoderClass = new (data: string, options: Readonly<Record<string, never>>) => Encoder
  /** The class itself in a bundler, or the whole CommonJS module in Node. */
  const module: EncoderClass | { readonly default: EncoderClass }
  export = module
}
