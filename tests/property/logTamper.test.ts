import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { verifySignature } from '../../src/adapters/crypto/verifySignature.ts'
import { exportText } from '../../src/core/log/exportFile.ts'
import { readLog, signatureFault } from '../../src/core/log/readLog.ts'
import { sampleExport, sampleKey } from '../support/sampleExport.ts'
import { sampleLog, sha256 } from '../support/sampleLog.ts'

let bytes: Buffer

beforeAll(async () => {
  // Letters of two, three and four bytes, so that changes fall inside them too.
  const note = { type: 'noteAdded', text: 'Größe 5 µL, 採血, 😀' } as const
  const log = sampleLog({ add: [[200, note]] })
  bytes = Buffer.from(exportText(await sampleExport(log, sampleKey())))
})

/** Whether an importer or the command would take the bytes for genuine, read as strictly as a file is. */
async function accepted(file: Buffer): Promise<boolean> {
  let text: string
  try {
    text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(file)
  } catch {
    return false
  }
  const result = readLog(text, sha256)
  if (!result.ok) return false
  return (await signatureFault(result.value, verifySignature)) === undefined
}

const place = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true })
const at = (share: number, length: number): number => Math.floor(share * length)

describe('an exported log', () => {
  it('is accepted as it was written', async () => {
    expect(await accepted(bytes)).toBe(true)
  })

  it('is refused after any one byte was changed', async () => {
    await fc.assert(
      fc.asyncProperty(place, fc.integer({ min: 1, max: 255 }), async (share, by) => {
        const copy = Buffer.from(bytes)
        const index = at(share, copy.length)
        copy[index] = (copy[index]! + by) % 256
        expect(await accepted(copy)).toBe(false)
      }),
      { numRuns: 300 },
    )
  })

  it('is refused after one byte was taken out', async () => {
    await fc.assert(
      fc.asyncProperty(place, async (share) => {
        const index = at(share, bytes.length)
        const copy = Buffer.concat([bytes.subarray(0, index), bytes.subarray(index + 1)])
        // Of two equal neighbors either one gone gives the same file, and it still is a shorter one.
        expect(await accepted(copy)).toBe(false)
      }),
      { numRuns: 200 },
    )
  })

  it('is refused after one byte was put in', async () => {
    await fc.assert(
      fc.asyncProperty(place, fc.integer({ min: 0, max: 255 }), async (share, byte) => {
        const index = at(share, bytes.length + 1)
        const copy = Buffer.concat([
          bytes.subarray(0, index),
          Buffer.from([byte]),
          bytes.subarray(index),
        ])
        expect(await accepted(copy)).toBe(false)
      }),
      { numRuns: 200 },
    )
  })

  it('is refused after any two different bytes changed places', async () => {
    await fc.assert(
      fc.asyncProperty(place, place, async (one, two) => {
        const copy = Buffer.from(bytes)
        const [a, b] = [at(one, copy.length), at(two, copy.length)]
        fc.pre(copy[a] !== copy[b])
        ;[copy[a], copy[b]] = [copy[b]!, copy[a]!]
        expect(await accepted(copy)).toBe(false)
      }),
      { numRuns: 200 },
    )
  })

  it('is refused after whole entries were taken out, doubled or swapped', async () => {
    interface Loose {
      log: { entries: unknown[] }
    }
    const change = fc.constantFrom<(list: unknown[], a: number, b: number) => void>(
      (list, a) => void list.splice(a, 1),
      (list, a) => void list.splice(a, 0, list[a]),
      (list, a, b) => void ([list[a], list[b]] = [list[b], list[a]]),
    )
    await fc.assert(
      fc.asyncProperty(change, place, place, async (apply, one, two) => {
        const copy = JSON.parse(bytes.toString()) as Loose
        const { entries } = copy.log
        const [a, b] = [at(one, entries.length), at(two, entries.length)]
        fc.pre(a !== b)
        apply(entries, a, b)
        expect(await accepted(Buffer.from(`${JSON.stringify(copy)}\n`))).toBe(false)
      }),
      { numRuns: 100 },
    )
  })
})
