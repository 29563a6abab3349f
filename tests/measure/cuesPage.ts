import { allowScripts } from '../../src/adapters/page/allowScripts.ts'
import { pageWaker, createSystemClock, type Waker } from '../../src/adapters/time/systemClock.ts'
import { createWorkerWaker } from '../../src/adapters/time/workerWaker.ts'

// The page has the app's own policy, which lets no worker start that is not named.
allowScripts(window, new URL('/', location.href).href)

export type WakerKind = 'worker' | 'page'

export interface CuesPage {
  /** Asks for `count` wake-ups one after another at uneven times; resolves with how late each came, ms. */
  measure(kind: WakerKind, count: number): Promise<readonly number[]>
  /** Keeps the page's thread busy half of the time, in pieces of 20 ms. */
  setBusy(busy: boolean): void
}

const startTimer = (): Worker =>
  new Worker(new URL('../../src/adapters/time/timer.worker.ts', import.meta.url), {
    type: 'module',
  })

const wakers: Readonly<Record<WakerKind, Waker>> = {
  worker: createWorkerWaker(startTimer),
  page: pageWaker,
}

let busy = false
function work(): void {
  if (!busy) return
  const end = performance.now() + 20
  while (performance.now() < end);
  setTimeout(work, 20)
}

const page: CuesPage = {
  async measure(kind, count) {
    const clock = createSystemClock('bench', wakers[kind])
    const late: number[] = []
    for (let i = 0; i < count; i++) {
      // 37 and 180 have no common factor: every delay from 20 to 199 ms comes up.
      const due_ms = performance.now() + 20 + ((i * 37) % 180)
      await new Promise<void>((resolve) => void clock.wakeAt(due_ms, resolve))
      late.push(performance.now() - due_ms)
    }
    return late
  },
  setBusy(next) {
    busy = next
    work()
  },
}

;(window as Window & { cuesPage?: CuesPage }).cuesPage = page
