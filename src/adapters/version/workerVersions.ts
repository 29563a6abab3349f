import { createEmitter } from '../../core/basics/emitter.ts'
import type { Clock } from '../../ports/clock.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { TakeOutcome, VersionState, Versions } from '../../ports/versions.ts'
import type { BusyLock } from './busyLock.ts'

/** A tablet that is never closed looks for a newer version this often. */
export const LOOK_ms = 60 * 60_000
/** So long a new version is waited for once it is told to begin. */
export const BEGIN_ms = 10_000

export interface WorkerVersionsDeps {
  readonly clock: Clock
  /** `navigator.serviceWorker`; absent where the page is neither https nor localhost, and while developing. */
  readonly workers: ServiceWorkerContainer | undefined
  /** Address of the service worker's script. */
  readonly script: string
  readonly busy: BusyLock
  /** Keeps what pages of the old version may still need. */
  readonly keepOld: () => Promise<void>
}

/** The browser's service workers, where it has any; the library's types say that all have. */
export const workersOf = (
  browser: Partial<Pick<Navigator, 'serviceWorker'>>,
): ServiceWorkerContainer | undefined => browser.serviceWorker

/**
 * The service worker keeps the app for use without a network. A newer one is fetched beside it and waits: it begins
 * when every page is closed, or when a person says so and no page is busy. It never begins by itself under a draw.
 */
export function createWorkerVersions(deps: WorkerVersionsDeps): Versions {
  const { clock, workers, busy } = deps
  const states = createEmitter<VersionState>()
  let state: VersionState = 'current'
  let isBusy = false
  let isTaking = false
  let registered: ServiceWorkerRegistration | undefined

  function become(next: VersionState): void {
    if (next === state) return
    state = next
    states.emit(next)
  }

  /** What waits, where there is something that it waits for. */
  const waiting = (): ServiceWorker | undefined =>
    registered?.active ? (registered.waiting ?? undefined) : undefined

  function look(): void {
    if (state !== 'taken') become(waiting() ? 'waiting' : 'current')
  }

  function lookOften(): void {
    wakeIn(clock, LOOK_ms, () => {
      if (!isBusy) registered?.update().catch(() => undefined)
      lookOften()
    })
  }

  async function start(container: ServiceWorkerContainer): Promise<void> {
    // Without one before, the first service worker that takes the page up is of the page's own version.
    let hasOne = container.controller !== null
    container.addEventListener('controllerchange', () => {
      if (hasOne && !isTaking) become('taken')
      hasOne = true
    })
    registered = await container.register(deps.script, { scope: '/' })
    const { installing } = registered
    installing?.addEventListener('statechange', look)
    registered.addEventListener('updatefound', () => {
      registered?.installing?.addEventListener('statechange', look)
    })
    look()
    lookOften()
  }

  /** Resolves once the new version answers for this page. */
  const begin = (container: ServiceWorkerContainer, worker: ServiceWorker): Promise<TakeOutcome> =>
    new Promise((resolve) => {
      const cancel = wakeIn(clock, BEGIN_ms, () => resolve('failed'))
      container.addEventListener(
        'controllerchange',
        () => {
          cancel()
          resolve('taken')
        },
        { once: true },
      )
      worker.postMessage({ type: 'SKIP_WAITING' })
    })

  async function take(container: ServiceWorkerContainer): Promise<TakeOutcome> {
    const worker = waiting()
    if (!worker) return state === 'taken' ? 'taken' : 'failed'
    await deps.keepOld()
    return begin(container, worker)
  }

  if (workers) start(workers).catch(() => undefined)
  return {
    onState(observer) {
      observer(state)
      return states.observe(observer)
    },
    setBusy(next) {
      isBusy = next
      busy.setBusy(next)
    },
    async take() {
      if (!workers || isBusy || isTaking) return isBusy ? 'busy' : 'failed'
      isTaking = true
      try {
        return (await busy.whileNoneIs(() => take(workers))) ?? 'busy'
      } catch {
        return 'failed'
      } finally {
        isTaking = false
      }
    },
  }
}
