// @vitest-environment jsdom
import { beforeEach, describe, expect, it, vi } from 'vitest'
import { ANSWER_ms, ASK_AGAIN_ms, createScreenWake } from '../../../src/adapters/screen/wakeLock.ts'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import type { WakeState } from '../../../src/ports/screenWake.ts'

/** A lock as the standard has it: an event target that ends with `release`, by the page or by the browser. */
class Sentinel extends EventTarget {
  released = false
  release(): Promise<void> {
    if (this.released) return Promise.resolve()
    this.released = true
    this.dispatchEvent(new Event('release'))
    return Promise.resolve()
  }
}

let seen: DocumentVisibilityState
let given: Sentinel[]
let refuse: boolean

beforeEach(() => {
  seen = 'visible'
  given = []
  refuse = false
  vi.spyOn(document, 'visibilityState', 'get').mockImplementation(() => seen)
})

function setUp(available = true) {
  const clock = createSimulatedClock({ wall_ms: 0, mono_ms: 0, boot: 'a', offset_min: 0 })
  const request = vi.fn(() => {
    if (refuse || seen !== 'visible') return Promise.reject(new DOMException('', 'NotAllowedError'))
    const lock = new Sentinel()
    given.push(lock)
    return Promise.resolve(lock as unknown as WakeLockSentinel)
  })
  const wake = createScreenWake({
    clock,
    wakeLock: available ? { request } : undefined,
    page: document,
  })
  const states: WakeState[] = []
  wake.onState((state) => states.push(state))
  return { clock, request, wake, states }
}

const settle = async (): Promise<void> => {
  for (let i = 0; i < 10; i++) await Promise.resolve()
}

/** The page goes out of sight or comes back; the browser ends its locks when it goes. */
async function look(next: DocumentVisibilityState): Promise<void> {
  seen = next
  if (next === 'hidden') given.forEach((lock) => void lock.release())
  document.dispatchEvent(new Event('visibilitychange'))
  await settle()
}

const lit = (): number => given.filter(({ released }) => !released).length

describe('keeping the screen lit', () => {
  it('holds one lock from the beginning to the end', async () => {
    const { wake, states } = setUp()
    wake.hold()
    wake.hold()
    await settle()
    expect(lit()).toBe(1)
    wake.release()
    await settle()
    expect(lit()).toBe(0)
    expect(states).toEqual(['asked', 'held', 'off'])
  })

  it('asks again each time the page is seen again, and not while it is out of sight', async () => {
    const { wake, request, states } = setUp()
    wake.hold()
    await settle()
    for (let i = 0; i < 3; i++) {
      await look('hidden')
      expect(lit()).toBe(0)
      await look('visible')
      expect(lit()).toBe(1)
    }
    expect(request).toHaveBeenCalledTimes(4)
    expect(states.at(-1)).toBe('held')
  })

  it('asks for none once it is released', async () => {
    const { wake, request } = setUp()
    wake.hold()
    await settle()
    wake.release()
    await look('hidden')
    await look('visible')
    expect(request).toHaveBeenCalledTimes(1)
  })

  it('gives back at once what comes after the end', async () => {
    const { wake } = setUp()
    wake.hold()
    wake.release()
    await settle()
    expect(lit()).toBe(0)
  })

  it('says so when it is refused, and asks again', async () => {
    const { wake, clock, states } = setUp()
    refuse = true
    wake.hold()
    await settle()
    expect(states).toEqual(['asked', 'refused'])
    refuse = false
    clock.advance(ASK_AGAIN_ms)
    await settle()
    expect(states.at(-1)).toBe('held')
    expect(lit()).toBe(1)
  })

  it('takes a lock anew that the machine has taken away', async () => {
    const { wake, clock, states } = setUp()
    wake.hold()
    await settle()
    clock.advance(ASK_AGAIN_ms)
    await given[0]?.release()
    await settle()
    expect([given.length, lit()]).toEqual([2, 1])
    expect(states).toEqual(['asked', 'held', 'asked', 'held'])
  })

  it('says so when a lock is taken away as soon as it is given, and does not ask round and round', async () => {
    const { wake, clock, states, request } = setUp()
    wake.hold()
    await settle()
    await given[0]?.release()
    await settle()
    expect(states.at(-1)).toBe('refused')
    expect(request).toHaveBeenCalledTimes(1)
    clock.advance(ASK_AGAIN_ms)
    await settle()
    expect([states.at(-1), lit()]).toEqual(['held', 1])
  })

  it('says so when the browser does not answer, and takes what comes late', async () => {
    const { wake, clock, states, request } = setUp()
    const late = new Sentinel()
    let answer = (_: WakeLockSentinel): void => undefined
    request.mockReturnValueOnce(new Promise((resolve) => (answer = resolve)))
    wake.hold()
    clock.advance(ANSWER_ms)
    await settle()
    expect(states).toEqual(['asked', 'refused'])
    answer(late as unknown as WakeLockSentinel)
    await settle()
    expect(states.at(-1)).toBe('held')
    expect(late.released).toBe(false)
  })

  it('asks again when it is wanted anew while the browser is still being asked', async () => {
    const { wake, states } = setUp()
    wake.hold()
    wake.release()
    wake.hold()
    await settle()
    expect([states.at(-1), lit()]).toEqual(['held', 1])
  })

  it.each([
    ['runs again after it was frozen', document, 'resume'],
    ['comes out of the back/forward cache', window, 'pageshow'],
  ])('asks when the page %s', async (_, target, name) => {
    const { wake } = setUp()
    refuse = true
    wake.hold()
    await settle()
    refuse = false
    target.dispatchEvent(new Event(name))
    await settle()
    expect(lit()).toBe(1)
  })

  it('says so where the browser has none', async () => {
    const { wake, states } = setUp(false)
    wake.hold()
    await settle()
    expect(states).toEqual(['unavailable'])
  })
})
