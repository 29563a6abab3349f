import { describe, expect, it } from 'vitest'
import { checkLog } from '../../../src/core/log/checkLog.ts'
import type { UnsealedEntry } from '../../../src/core/protocol/entry.ts'
import { appendFault } from '../../../src/core/log/appendFault.ts'
import { NO_PREVIOUS, sealAll, sealEntry } from '../../../src/core/log/seal.ts'
import { sampleLog, sampleOpening, sha256, stampAt } from '../../support/sampleLog.ts'

const opening: UnsealedEntry = {
  seq: 1,
  at: stampAt(0),
  by: 'c1',
  source: 'app',
  event: sampleOpening(),
}

describe('sealEntry', () => {
  it('starts from sixty-four zeros and hangs each entry on the one before', () => {
    const { entries } = sampleLog()
    expect(entries[0]?.previous).toBe(NO_PREVIOUS)
    for (const [index, entry] of entries.entries()) {
      if (index > 0) expect(entry.previous).toBe(entries[index - 1]?.hash)
      expect(entry.hash).toMatch(/^[0-9a-f]{64}$/)
    }
  })

  it('gives the same hash whatever the order of the fields', () => {
    const turned = Object.fromEntries(Object.entries(opening).reverse()) as unknown as UnsealedEntry
    const [a, b] = [opening, turned].map((entry) => sealEntry(entry, NO_PREVIOUS, sha256).hash)
    expect(a).toBe(b)
  })

  it('seals what a file can hold: undefined goes, what is not finite becomes null', () => {
    const away = { type: 'awayNoticed', away_ms: Infinity, bandWasOn: true } as const
    const sealed = sealEntry({ ...opening, seq: 1, event: away }, NO_PREVIOUS, sha256)
    expect(sealed.event).toEqual({ type: 'awayNoticed', away_ms: null, bandWasOn: true })
    expect(JSON.parse(JSON.stringify(sealed))).toEqual(sealed)
  })

  it('never fails for text that no UTF-8 can hold', () => {
    const note = { type: 'noteAdded', text: 'cut \ud83d emoji' } as const
    const entries = sealAll([opening, { ...opening, seq: 2, event: note }], sha256)
    expect(entries[1]?.event).toEqual({ type: 'noteAdded', text: 'cut \ufffd emoji' })
    const log = { format: 'stillhand-log', version: 1, drawId: 'D7-20261125-0003', entries }
    expect(checkLog(log, sha256)).toMatchObject({ ok: true })
  })
})

describe('appendFault', () => {
  const { entries } = sampleLog()

  it('lets entries follow that do', () => {
    expect(appendFault(undefined, entries)).toBeUndefined()
    expect(appendFault(entries[3], entries.slice(4))).toBeUndefined()
    expect(appendFault(entries[3], [])).toBeUndefined()
  })

  it('says why others cannot', () => {
    expect(appendFault(entries[3], entries.slice(3))).toMatch(/already written/)
    expect(appendFault(entries[3], entries.slice(5))).toMatch(/Entry 5 is missing/)
    expect(appendFault({ seq: 3, hash: 'x' }, entries.slice(3))).toMatch(/does not follow/)
  })
})
