import { expect, it } from 'vitest'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import { aFewAtATime } from '../../../src/app/bench/aFewAtATime.ts'
import { SAMPLE_START_ms } from '../../support/sampleLog.ts'

const reading = { boot: 'a', mono_ms: 0, wall_ms: SAMPLE_START_ms, offset_min: 60 }
const numbers = Array.from({ length: 50 }, (_, i) => i)

it('gives all in their order', async () => {
  const clock = createSimulatedClock(reading)
  expect(await aFewAtATime(clock, numbers, (n) => Promise.resolve(n * 2))).toEqual(
    numbers.map((n) => n * 2),
  )
})

// Nielsen, "Response Times: The 3 Important Limits": what comes within 0.1 s feels at once. From memory.
it('lets the page answer after some 40 ms of work', async () => {
  const clock = createSimulatedClock(reading)
  let done_n = 0
  const all = aFewAtATime(clock, numbers, (n) => {
    done_n++
    // Each takes 10 ms of the page's time.
    clock.advance(10)
    return Promise.resolve(n)
  })
  await new Promise((resolve) => setTimeout(resolve))
  expect(done_n).toBe(8)
  while (done_n < numbers.length) {
    clock.advance(1)
    await new Promise((resolve) => setTimeout(resolve))
  }
  clock.advance(1)
  expect(await all).toEqual(numbers)
})
