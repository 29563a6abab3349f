import { beforeAll, describe, expect, it } from 'vitest'
import { verifySignature } from '../../../src/adapters/crypto/verifySignature.ts'
import { canonicalJson } from '../../../src/core/log/canonicalJson.ts'
import { exportPart, exportText, type PartFile } from '../../../src/core/log/exportFile.ts'
import { readLog, signatureFault } from '../../../src/core/log/readLog.ts'
import { sealAll } from '../../../src/core/log/seal.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { sampleExport, sampleKey, signWith } from '../../support/sampleExport.ts'
import { sampleCollector, sampleLog, sha256, stampAt } from '../../support/sampleLog.ts'

const log = sampleLog()
const [ours, theirs] = [sampleKey(), sampleKey()]
let original: string
let both: string
let longer: DrawLog
let part: PartFile

/** The log with an addendum of another device behind it. */
function withAddendum(to: DrawLog, at_s: number): DrawLog {
  const last = to.entries.at(-1)!
  const event = { type: 'addendumMade', by: sampleCollector, text: 'x', why: 'y' } as const
  const entry = { seq: last.seq + 1, at: stampAt(at_s), by: 'c1', source: 'touch', event } as const
  return { ...to, entries: [...to.entries, ...sealAll([entry], sha256, last.hash)] }
}

beforeAll(async () => {
  original = exportText(await sampleExport(log, theirs))
  longer = withAddendum(log, 400)
  part = await exportPart(longer, log.entries.length, 0, ours, signWith(ours))
  both = original + exportText(part)
})

const refused = (text: string) => {
  const reading = readLog(text, sha256)
  return reading.ok ? undefined : reading.faults[0]
}

const changed = (change: object, inPart: object = {}): string =>
  `${original}${canonicalJson({ ...part, ...change, part: { ...part.part, ...inPart } })}\n`

describe('a log with a part that another device added', () => {
  it('leaves the bytes of the first export as they were', () => {
    expect(both.startsWith(original)).toBe(true)
  })

  it('is read as one log with two signers', async () => {
    const reading = readLog(both, sha256)
    if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
    expect(reading.value.log).toEqual(longer)
    expect(reading.value.parts.map(({ trailer, entries }) => [trailer.keyId, entries])).toEqual([
      [theirs.keyId, log.entries.length],
      [ours.keyId, 1],
    ])
    expect(await signatureFault(reading.value, verifySignature)).toBeUndefined()
  })

  it('takes a further part behind that', async () => {
    const longest = withAddendum(longer, 500)
    const more = await exportPart(longest, longer.entries.length, 0, theirs, signWith(theirs))
    const reading = readLog(both + exportText(more), sha256)
    expect(reading.ok && reading.value.log).toEqual(longest)
    expect(reading.ok && reading.value.parts).toHaveLength(3)
  })

  it('is not older than the entries in it, whatever the clock says', () => {
    expect(part.trailer.exportedAt).toBe(longer.entries.at(-1)!.at.at_ms)
  })

  it('finds a signature that is not over this part', async () => {
    const other = await exportPart(longer, log.entries.length, 0, theirs, signWith(ours))
    const reading = readLog(original + exportText(other), sha256)
    if (!reading.ok) throw new Error('should be read')
    expect(await signatureFault(reading.value, verifySignature)).toMatchObject({
      kind: 'badSignature',
      values: { keyId: theirs.keyId },
    })
  })

  it.each([
    ['a part of another draw', () => changed({}, { drawId: 'D7-20261125-0004' }), 'otherDraw'],
    ['a part behind another entry', () => changed({}, { follows: 'f'.repeat(64) }), 'otherLink'],
    ['a part without entries', () => changed({}, { entries: [] }), 'empty'],
    ['entries that are none', () => changed({}, { entries: [1] }), 'notAnEntry'],
    ['a field beside', () => changed({ note: 'approved' }), 'unsignedField'],
    ['a field in its head', () => changed({}, { note: 'approved' }), 'unsignedField'],
    ['a newer part', () => changed({}, { version: 2 }), 'newerVersion'],
    ['a part with no end', () => `${original}${canonicalJson({ part: part.part })}\n`, 'noEnd'],
    ['other JSON', () => `${original}{"a":1}\n`, 'otherPart'],
    ['text', () => `${original}approved by the head of department\n`, 'notALog'],
    ['an empty line', () => `${original}\n`, 'notALog'],
    ['a cut part', () => both.slice(0, -30), 'breaksOffAfter'],
    ['a part without its line feed', () => both.slice(0, -1), 'otherText'],
    ['the log twice', () => original + original, 'otherPart'],
    ['a part alone', () => exportText(part), 'notALog'],
  ])('refuses %s', (_what, text, id) => {
    expect(refused(text())).toMatchObject({ id })
  })

  it('names an entry of the part by its number in the draw', () => {
    const forged = both.replace('"text":"x"', '"text":"z"')
    expect(refused(forged)).toMatchObject({ kind: 'brokenHash', seq: longer.entries.length })
  })
})
