import { errorText } from '../../../core/basics/errorText.ts'
import { createTarWalk } from './tarWalk.ts'

/** Larger than any model that a browser can hold, unpacked. */
const MOST_UNPACKED_bytes = 2_000_000_000

/**
 * Looks through a tar archive packed with gzip without keeping what is in it, and says what is wrong: for the engine
 * unpacks what it is given, wherever the names in it point. Nothing is said of what the files in it are.
 * @returns the first fault, for the technical line, or `undefined`
 */
export async function archiveFault(bytes: ArrayBuffer): Promise<string | undefined> {
  const walk = createTarWalk()
  const packed = new Blob([bytes]).stream()
  const reader = packed.pipeThrough(new DecompressionStream('gzip')).getReader()
  let unpacked = 0
  try {
    for (;;) {
      const { done, value } = await reader.read()
      if (done) return walk.end()
      unpacked += value.length
      const fault = unpacked > MOST_UNPACKED_bytes ? 'unpacks to too much' : walk.take(value)
      if (fault !== undefined) {
        await reader.cancel().catch(() => undefined)
        return fault
      }
    }
  } catch (error) {
    return `not gzip: ${errorText(error)}`
  }
}
