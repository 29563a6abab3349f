import { pageWaker, type Waker } from './systemClock.ts'

/**
 * Timers in a worker: a page in the background has its own slowed to one a second or fewer, a worker's are not.
 * Falls back to the page's timer where a worker cannot be started or dies.
 */
export function createWorkerWaker(start: () => Worker): Waker {
  const waiting = new Map<number, () => void>()
  let next = 0
  let worker: Worker | undefined
  try {
    worker = start()
  } catch {
    return pageWaker
  }
  worker.onmessage = ({ data }: MessageEvent<number>) => {
    const wake = waiting.get(data)
    waiting.delete(data)
    wake?.()
  }
  worker.onerror = () => {
    worker = undefined
    // Whatever was waiting is woken now; whoever waits looks at the clock and asks again.
    const all = [...waiting.values()]
    waiting.clear()
    all.forEach((wake) => wake())
  }
  return {
    at(delay_ms, wake) {
      if (!worker) return pageWaker.at(delay_ms, wake)
      const id = next++
      waiting.set(id, wake)
      worker.postMessage({ id, delay_ms })
      return () => {
        waiting.delete(id)
        worker?.postMessage({ id })
      }
    },
  }
}
