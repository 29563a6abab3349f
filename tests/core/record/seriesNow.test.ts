import { expect, it } from 'vitest'
import { isTime, needsNow } from '../../../src/core/record/seriesNow.ts'
import { SAMPLE_START_ms } from '../../support/sampleLog.ts'
import { sampleSeries } from '../../support/sampleSeries.ts'

const MIN = 60_000
/** The drink was finished after 400 s: the 1 h sample is due after 66 min 40 s, and counts within 5 min. */
const TOLD = sampleSeries([[400, { type: 'momentNoted', moment: 'drinkFinished' }]])
const at = (minutes: number): number => SAMPLE_START_ms + minutes * MIN

it.each([
  [30, false],
  [61, false],
  [62, true],
  [67, true],
  [90, true],
])('%i min after the first draw something of it is to be done now: %s', (minutes, now) => {
  expect(needsNow(TOLD, at(minutes))).toBe(now)
})

it('what its samples are counted from is to be told at once, and a hold is to be decided', () => {
  expect(needsNow(sampleSeries(), at(5))).toBe(true)
  const held = sampleSeries([
    [310, { type: 'exceptionRaised', kind: 'faint' }],
    [400, { type: 'momentNoted', moment: 'drinkFinished' }],
  ])
  expect(needsNow(held, at(30))).toBe(true)
})

it('a sample that waits for nothing may be drawn at any time, one without a time at none', () => {
  const [first] = TOLD.sittings
  const { from: _from, ...free } = first?.part ?? { from: undefined }
  expect(isTime({ part: free } as never, at(0))).toBe(true)
  const untold = sampleSeries().sittings.at(-1)
  expect(untold && isTime(untold, at(500))).toBe(false)
})
