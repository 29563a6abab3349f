import { beforeEach, describe, expect, it } from 'vitest'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import { createBenchWatch } from '../../../src/app/bench/benchWatch.ts'
import type { DrawingHere } from '../../../src/app/draw/runningDraw.ts'
import type { BenchDue } from '../../../src/core/bench/benchDues.ts'
import { fakeSound, type FakeSound } from '../../support/fakeSound.ts'

const MINUTE_ms = 60_000
const clockAtStart = () =>
  createSimulatedClock({ boot: 'a', mono_ms: 0, wall_ms: 0, offset_min: 0 })
const due = (kind: BenchDue['kind'], minutes: number, drawId = 'D1'): BenchDue => ({
  key: `${drawId} ${kind}`,
  drawId,
  kind,
  at_ms: minutes * MINUTE_ms,
})
const HERE: DrawingHere = { drawId: 'D9', invented: false, isSafe: true, hasBlood: false }

let clock: ReturnType<typeof clockAtStart>
let sound: FakeSound
let here: DrawingHere | undefined
const start = (...dues: readonly BenchDue[]) => {
  const watch = createBenchWatch({ clock, sound, drawing: () => here, onBeat: () => undefined })
  watch.watch(dues)
  return watch
}

beforeEach(() => {
  clock = clockAtStart()
  sound = fakeSound()
  here = undefined
})

describe('calls of the bench', () => {
  it('come once each; of several at once the gravest is said', () => {
    start(due('ready', 1), due('near', 1), due('over', 5))
    clock.advance(4 * MINUTE_ms)
    expect(sound.spoken).toEqual(['bench.near'])
    clock.advance(4 * MINUTE_ms)
    expect(sound.spoken).toEqual(['bench.near', 'bench.over'])
  })

  it('are silent over a needle, a band or a tube, and come when it is out', () => {
    here = { ...HERE, isSafe: false }
    start(due('near', 1), due('ready', 1))
    clock.advance(10 * MINUTE_ms)
    expect([...sound.spoken, ...sound.chimes]).toEqual([])
    here = HERE
    clock.advance(MINUTE_ms)
    expect([sound.spoken, sound.chimes]).toEqual([['bench.near'], ['nearlyUp']])
  })

  it('beside a patient are only of what would be lost; the rest comes once the patient has gone', () => {
    here = HERE
    start(due('ready', 1), due('spinDone', 1))
    clock.advance(10 * MINUTE_ms)
    expect(sound.spoken).toEqual([])
    here = undefined
    clock.advance(MINUTE_ms)
    expect([sound.spoken, sound.chimes]).toEqual([['bench.spinDone'], ['timeUp']])
  })

  it('leave the tubes of the draw at the chair to that draw', () => {
    here = HERE
    start(due('over', 1, HERE.drawId))
    clock.advance(10 * MINUTE_ms)
    expect(sound.spoken).toEqual([])
  })

  it('of what was due more than half an hour ago are shown and no longer called out', () => {
    clock.advance(60 * MINUTE_ms)
    start(due('ready', 10))
    clock.advance(MINUTE_ms)
    expect(sound.spoken).toEqual([])
  })

  it('end with what they are of, and cost nothing where nothing is waited for', () => {
    const watch = start(due('ready', 5))
    watch.watch([])
    clock.advance(10 * MINUTE_ms)
    expect(sound.spoken).toEqual([])
  })
})
