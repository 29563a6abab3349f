/** A file that a person chose; the browser's own `File` is one. Nothing of it is read before it is asked for. */
export interface ChosenFile {
  readonly name: string
  /** Bytes. */
  readonly size: number
  arrayBuffer(): Promise<ArrayBuffer>
}

export type IntakeKind =
  'order' | 'orders' | 'log' | 'catalogue' | 'stock' | 'laboratories' | 'limits'

/** Larger than any file of the kind; what is larger still is something else and is not even opened. In bytes. */
export const MOST_BYTES: Readonly<Record<IntakeKind, number>> = {
  order: 1_000_000,
  orders: 5_000_000,
  log: 8_000_000,
  catalogue: 2_000_000,
  stock: 500_000,
  laboratories: 200_000,
  limits: 200_000,
}

/** A text as a file of this app, to be read as one that was chosen. */
export function fileOf(name: string, text: string): ChosenFile {
  const bytes = new TextEncoder().encode(text)
  return { name, size: bytes.length, arrayBuffer: () => Promise.resolve(bytes.buffer) }
}
