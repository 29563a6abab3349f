/** A scanner types far faster than a hand: characters this close together belong to one scan. */
export const SCAN_GAP_ms = 50
/** Shorter bursts are two keys struck together, not a scan. */
export const SCAN_LEAST_n = 4

export interface ScanBuffer {
  readonly text: string
  readonly last_ms: number
}

export const EMPTY_SCAN: ScanBuffer = { text: '', last_ms: -Infinity }

/** The buffer after one more character at `at_ms`; a pause begins a new burst. */
export function addCharacter(buffer: ScanBuffer, character: string, at_ms: number): ScanBuffer {
  const joined = at_ms - buffer.last_ms <= SCAN_GAP_ms
  return { text: joined ? buffer.text + character : character, last_ms: at_ms }
}

/** The text of a finished scan when Enter comes at `at_ms`, or `undefined` when this Enter is a person's. */
export function finishedScan(buffer: ScanBuffer, at_ms: number): string | undefined {
  const joined = at_ms - buffer.last_ms <= SCAN_GAP_ms
  return joined && buffer.text.length >= SCAN_LEAST_n ? buffer.text : undefined
}
