import { describe, expect, it } from 'vitest'
import {
  addCharacter,
  EMPTY_SCAN,
  finishedScan,
  SCAN_GAP_ms,
} from '../../src/ui/draw/scanBuffer.ts'

const type = (text: string, gap_ms: number) =>
  [...text].reduce(
    (buffer, character, i) => addCharacter(buffer, character, i * gap_ms),
    EMPTY_SCAN,
  )

describe('telling a scan from typing', () => {
  it('joins fast characters ended by Enter', () => {
    expect(finishedScan(type('A1B2', 12), 3 * 12 + 12)).toBe('A1B2')
  })

  it('joins at exactly the gap and not beyond', () => {
    expect(finishedScan(type('A1B2', SCAN_GAP_ms), 4 * SCAN_GAP_ms)).toBe('A1B2')
    expect(finishedScan(type('A1B2', SCAN_GAP_ms + 1), 4 * (SCAN_GAP_ms + 1))).toBeUndefined()
  })

  it('is no scan when Enter comes late or the burst is short', () => {
    expect(finishedScan(type('A1B2', 10), 300)).toBeUndefined()
    expect(finishedScan(type('A1B', 10), 30)).toBeUndefined()
  })
})
