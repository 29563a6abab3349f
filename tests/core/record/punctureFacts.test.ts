import { expect, it } from 'vitest'
import { punctureFacts } from '../../../src/core/record/punctureFacts.ts'
import { logOf, sampleOpening, type Line } from '../../support/sampleLog.ts'

it('a band that stays on over two needles is released for both, once each', () => {
  const opening = sampleOpening()
  const lines: readonly Line[] = [
    [0, opening],
    [10, { type: 'bandOn' }],
    [20, { type: 'needleIn', attempt: 1 }],
    [30, { type: 'needleOut' }],
    [40, { type: 'punctureBegun', number: 2 }],
    [50, { type: 'needleIn', attempt: 2 }],
    [70, { type: 'bandOff' }],
    [80, { type: 'bandOn' }],
    [90, { type: 'bandOff' }],
  ]
  const [first, second] = punctureFacts(logOf(lines).entries, opening)
  // On for a minute: from the first needle's site to the release during the second.
  expect(first?.bands.map(({ length }) => length?.most_ms)).toEqual([60_000])
  expect(second?.bands.map(({ length }) => length?.most_ms)).toEqual([10_000])
})
