import { describe, expect, it } from 'vitest'
import { createSimulatedClock } from '../../src/adapters/time/simulatedClock.ts'
import { followClinic, type FollowClinicDeps } from '../../src/app/actions/followClinic.ts'
import { noClinic, type ClinicView, type OtherDraw } from '../../src/app/hub/clinic.ts'
import { SAMPLE_START_ms } from '../support/sampleLog.ts'
import { STATE } from '../support/views.ts'

/** A page that follows a clinic; the test says what has come and how much is still to come. */
function following() {
  const clock = createSimulatedClock({
    ...{ boot: 'a', mono_ms: 0, wall_ms: SAMPLE_START_ms, offset_min: 60 },
  })
  let state = { ...STATE, settings: { ...STATE.settings, devicePrefix: 'KM47' } }
  let tell = (): void => undefined
  let [coming_n, draws_n, listed] = [0, 0, 0]
  let prefix = 'BB33'
  const view = (): ClinicView => ({
    ...{ link: 'connected', since_ms: 0, coming_n, waiting_n: 0 },
    ...{ aside: [], notTaken: [], faults: [] },
  })
  const draws = (): readonly OtherDraw[] =>
    Array.from({ length: draws_n }, (_, i) => ({
      ...{
        drawId: `${prefix}-20261125-${i}`,
        begunBy: 'Chair 2',
        opened_ms: 0,
        closed: false,
        invented: false,
      },
      ...{ patientName: 'Alex Invented', deviceName: 'Chair 2', heard_ms: 0 },
    }))
  const clinic = {
    ...{ ...noClinic, view, draws },
    onChange: (observer: () => void) => {
      tell = observer
      return () => undefined
    },
  }
  followClinic({
    parts: {
      ...{ clinic, clock, site: {}, stock: { mayTake: () => false } },
      get: () => state,
      set: (change: object) => (state = { ...state, ...change }),
      refreshDraws: () => Promise.resolve(),
    },
    book: { othersChanged: () => void listed++ },
    bench: { othersChanged: () => undefined },
    running: { log: () => undefined, loseTo: () => undefined },
    countDown: () => Promise.resolve(),
    onListed: () => undefined,
  } as unknown as FollowClinicDeps)
  return {
    /** Some more draws have come. */
    comes: (rest_n: number): void => {
      coming_n = rest_n
      draws_n++
      tell()
      clock.advance(100)
    },
    pass: (s: number): void => void clock.advance(s * 1000),
    listed: () => listed,
    shown: () => state.others.length,
    told: () => state.clinic?.coming_n,
    samePrefix: () => state.clinic?.samePrefix,
    setPrefix: (to: string) => (prefix = to),
  }
}

describe('a page of a clinic', () => {
  it('lists what others do as it comes', () => {
    const { comes, listed, shown } = following()
    for (const rest of [3, 2, 0]) comes(rest)
    expect([listed(), shown()]).toEqual([3, 3])
  })

  it('tells of a device that gives its draws the prefix of this one', () => {
    const { comes, samePrefix, setPrefix } = following()
    comes(0)
    expect(samePrefix()).toBeUndefined()
    setPrefix('KM47')
    comes(0)
    expect(samePrefix()).toBe('Chair 2')
    // It was given another one: what it began last tells.
    setPrefix('CC55')
    comes(0)
    expect(samePrefix()).toBeUndefined()
  })

  it('tells how much is still to come, and reads the lists anew only now and then until it has', () => {
    const { comes, listed, shown, told, pass } = following()
    for (let rest = 90_000; rest > 400; rest -= 3000) comes(rest)
    expect([listed(), told()]).toEqual([1, 3000])
    // Who draws what is known at once all the same.
    expect(shown()).toBe(30)
    pass(31)
    comes(2000)
    expect(listed()).toBe(2)
    comes(1000)
    comes(0)
    expect([listed(), shown()]).toEqual([3, 33])
  })
})
