import { createEmitter } from '../../src/core/basics/emitter.ts'
import type { Reader } from '../../src/ports/reader.ts'

/** A reader that remembers what it was to read. */
export interface FakeReader extends Reader {
  readonly texts: string[]
  setReading(reading: boolean): void
}

export function fakeReader(): FakeReader {
  const texts: string[] = []
  const reading = createEmitter<boolean>()
  return {
    texts,
    isThere: () => true,
    read: (text) => void texts.push(text),
    stop: () => undefined,
    onReading: reading.observe,
    setReading: reading.emit,
  }
}
