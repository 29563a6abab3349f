import { LONGEST_TIMER_ms, pageWaker, type Waker } from './systemClock.ts'

/** So long after the worker should have woken the page, the page's own timer does. */
const STAND_IN_ms = 250
/** After so many times in a row the worker is taken for dead and another one is started. */
const MISSED_n = 3

interface Waiting {
  readonly wake: () => void
  readonly cancelStandIn: () => void
}

/**
 * Timers in a worker: a page in the background has its own slowed to one a second or fewer, a worker's are not. The
 * page's timer stands in where a worker cannot be started, breaks, or ends without a word: an alarm must come.
 */
export function createWorkerWaker(start: () => Worker): Waker {
  const waiting = new Map<number, Waiting>()
  let next = 0
  let missed = 0
  let worker: Worker | undefined

  function begin(): void {
    worker = undefined
    missed = 0
    try {
      worker = start()
    } catch {
      return
    }
    const mine = worker
    mine.onmessage = ({ data }: MessageEvent<number>) => {
      missed = 0
      ring(data)
    }
    mine.onerror = () => {
      if (worker !== mine) return
      worker = undefined
      // Whatever was waiting is woken now; whoever waits looks at the clock and asks again.
      ;[...waiting.keys()].forEach(ring)
    }
  }

  function ring(id: number): void {
    const due = waiting.get(id)
    waiting.delete(id)
    due?.cancelStandIn()
    due?.wake()
  }

  function standIn(id: number): void {
    missed += 1
    if (missed === MISSED_n) {
      worker?.terminate()
      begin()
    }
    ring(id)
  }

  begin()
  return {
    at(delay_ms, wake) {
      if (!worker) return pageWaker.at(delay_ms, wake)
      const id = next++
      const late_ms = Math.min(delay_ms + STAND_IN_ms, LONGEST_TIMER_ms)
      waiting.set(id, { wake, cancelStandIn: pageWaker.at(late_ms, () => standIn(id)) })
      worker.postMessage({ id, delay_ms })
      return () => {
        waiting.get(id)?.cancelStandIn()
        waiting.delete(id)
        worker?.postMessage({ id })
      }
    },
  }
}
