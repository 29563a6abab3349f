import { describe, expect, it } from 'vitest'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import { noClinic, type Clinic, type ClinicView } from '../../../src/app/hub/clinic.ts'
import { createLateClinic, type OpenedClinic } from '../../../src/app/hub/lateClinic.ts'

/** What was begun has come to its end. */
const settled = (): Promise<void> => new Promise((resolve) => setImmediate(resolve))
const START_ms = 1_000_000
const CONNECTED: ClinicView = {
  ...{ link: 'connected', since_ms: START_ms, coming_n: 0, waiting_n: 2 },
  ...{ aside: [], notTaken: [], faults: [] },
}

/** A clinic that opens as it is told, one outcome a try; the last one stays. */
function rig(...outcomes: readonly (OpenedClinic['kind'] | 'fails')[]) {
  const clock = createSimulatedClock({ boot: 'a', mono_ms: 0, wall_ms: START_ms, offset_min: 0 })
  const calls: string[] = []
  let observer = (): void => undefined
  const inner: Clinic = {
    ...noClinic,
    start: async () => void calls.push('start'),
    view: () => CONNECTED,
    claim: async () => ({ kind: 'taken', by: 'Chair 2' }),
    takeOver: async () => ({ kind: 'refused', why: 'notWhole' }),
    wrote: () => void calls.push('wrote'),
    erased: async (drawId) => void calls.push(`erased ${drawId}`),
    forget: () => void calls.push('forget'),
    remember: () => void calls.push('remember'),
    onChange: (each) => {
      observer = each
      return () => undefined
    },
  }
  let tries = 0
  const clinic = createLateClinic(async () => {
    const outcome = outcomes[Math.min(tries, outcomes.length - 1)] ?? 'fails'
    tries += 1
    if (outcome === 'fails') throw new Error('The disk does not answer.')
    return outcome === 'open' ? { kind: 'open', clinic: inner } : { kind: outcome }
  }, clock)
  let told = 0
  clinic.onChange(() => (told += 1))
  const link = () => clinic.view()?.link
  return {
    clinic,
    clock,
    calls,
    link,
    tries: () => tries,
    told: () => told,
    change: () => observer(),
  }
}

describe('a clinic before its keys are there', () => {
  it('says that it connects, works alone meanwhile, and is the clinic once it is open', async () => {
    const { clinic, calls, link } = rig('open')
    expect([link(), clinic.view()?.since_ms]).toEqual(['connecting', START_ms])
    expect(await clinic.claim('order.KM47-L3')).toEqual({ kind: 'alone' })
    expect(await clinic.takeOver('AA22-1')).toEqual({ kind: 'refused', why: 'alone' })
    expect([clinic.draws(), clinic.dayEntries(), clinic.load('AA22-1')]).toEqual([
      [],
      [],
      undefined,
    ])
    clinic.wrote()
    clinic.forget()
    expect(calls).toEqual([])

    await clinic.start()
    expect(clinic.view()).toBe(CONNECTED)
    expect(await clinic.claim('order.KM47-L3')).toEqual({ kind: 'taken', by: 'Chair 2' })
    clinic.wrote()
    clinic.forget()
    clinic.remember()
    expect(calls).toEqual(['start', 'wrote', 'forget', 'remember'])
  })

  it('passes on what changes in it', async () => {
    const { clinic, told, change } = rig('open')
    await clinic.start()
    const before = told()
    change()
    expect(told()).toBe(before + 1)
  })

  it('is opened once, however often it is asked to start', async () => {
    const { clinic, calls, tries } = rig('open')
    await Promise.all([clinic.start(), clinic.start()])
    await clinic.start()
    expect([tries(), calls]).toEqual([1, ['start']])
  })

  it('behind a PIN says nothing of itself, and opens when the PIN was given', async () => {
    const { clinic, calls, link, tries, clock } = rig('locked', 'locked', 'open')
    await clinic.start()
    expect(clinic.view()).toBeUndefined()
    // Nobody asks for what a person has to open first.
    clock.advance(3_600_000)
    expect(tries()).toBe(1)
    clinic.remember()
    await settled()
    expect([tries(), clinic.view()]).toEqual([2, undefined])
    clinic.remember()
    await settled()
    expect([link(), calls]).toEqual(['connected', ['start']])
  })

  it('on a disk that does not answer works alone, says since when, and asks again', async () => {
    const { clinic, clock, link, tries, calls } = rig('fails', 'fails', 'open')
    clock.advance(700)
    await clinic.start()
    expect([link(), clinic.view()?.since_ms]).toEqual(['alone', START_ms + 700])
    for (const n of [2, 3]) {
      clock.advance(10_000)
      expect(tries()).toBe(n)
      await settled()
    }
    expect([link(), calls]).toEqual(['connected', ['start']])
  })

  it('that still does not answer is alone since the first failure', async () => {
    const { clinic, clock, tries } = rig('fails')
    await clinic.start()
    clock.advance(60_000)
    expect(tries()).toBe(2)
    await settled()
    expect(clinic.view()).toMatchObject({ link: 'alone', since_ms: START_ms })
  })

  it('forgets, once it is open, what was erased before', async () => {
    const { clinic, calls } = rig('open')
    await clinic.erased('AA22-1')
    await clinic.start()
    await clinic.erased('AA22-2')
    expect(calls).toEqual(['start', 'erased AA22-1', 'erased AA22-2'])
  })

  it('that is lost says that the hub does not know this device', async () => {
    const { clinic, told } = rig('lost')
    await clinic.start()
    expect(clinic.view()).toMatchObject({ link: 'refused', why: 'credentials', waiting_n: 0 })
    expect(told()).toBe(1)
  })
})
