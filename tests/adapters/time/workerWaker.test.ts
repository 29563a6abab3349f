import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { createWorkerWaker } from '../../../src/adapters/time/workerWaker.ts'

interface Message {
  readonly id: number
  readonly delay_ms?: number
}

/** A timer worker that can be ended without a word, as a machine short of memory does. */
class FakeWorker {
  onmessage: ((event: { data: number }) => void) | null = null
  onerror: (() => void) | null = null
  isDead = false
  readonly timers = new Map<number, ReturnType<typeof setTimeout>>()

  postMessage({ id, delay_ms }: Message): void {
    clearTimeout(this.timers.get(id))
    if (delay_ms === undefined) return
    const ring = (): void => void (this.isDead || this.onmessage?.({ data: id }))
    this.timers.set(id, setTimeout(ring, delay_ms))
  }
  terminate(): void {
    this.isDead = true
  }
}

let workers: FakeWorker[]
const start = (): Worker => {
  const worker = new FakeWorker()
  workers.push(worker)
  return worker as unknown as Worker
}

beforeEach(() => {
  vi.useFakeTimers()
  workers = []
})
afterEach(() => vi.useRealTimers())

it('wakes once, by the worker, on time', () => {
  const woken = vi.fn()
  createWorkerWaker(start).at(1000, woken)
  vi.advanceTimersByTime(999)
  expect(woken).not.toHaveBeenCalled()
  vi.advanceTimersByTime(1)
  expect(woken).toHaveBeenCalledTimes(1)
  vi.advanceTimersByTime(10_000)
  expect(woken).toHaveBeenCalledTimes(1)
})

it('wakes a quarter of a second late at most when the worker has ended without a word', () => {
  const woken = vi.fn()
  const waker = createWorkerWaker(start)
  waker.at(20_000, woken)
  workers[0]?.terminate()
  vi.advanceTimersByTime(20_250)
  expect(woken).toHaveBeenCalledTimes(1)
})

it('starts another worker after three wakings that did not come, and is on time again', () => {
  const waker = createWorkerWaker(start)
  workers[0]?.terminate()
  for (let n = 0; n < 3; n++) {
    waker.at(200, () => undefined)
    vi.advanceTimersByTime(450)
  }
  expect(workers).toHaveLength(2)
  const woken = vi.fn()
  waker.at(200, woken)
  vi.advanceTimersByTime(200)
  expect(woken).toHaveBeenCalledTimes(1)
})

it('what was given up wakes nobody, whoever would have woken', () => {
  const woken = vi.fn()
  const waker = createWorkerWaker(start)
  waker.at(1000, woken)()
  workers[0]?.terminate()
  waker.at(1000, woken)()
  vi.advanceTimersByTime(60_000)
  expect(woken).not.toHaveBeenCalled()
})

it('goes by the page alone where no worker can be started, or one breaks', () => {
  const woken = vi.fn()
  const without = createWorkerWaker(() => {
    throw new Error('No workers here.')
  })
  without.at(1000, woken)
  const waker = createWorkerWaker(start)
  workers[0]?.onerror?.()
  waker.at(1000, woken)
  vi.advanceTimersByTime(1000)
  expect(woken).toHaveBeenCalledTimes(2)
})
