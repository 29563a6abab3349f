import type { Clock } from '../../../ports/clock.ts'
import { wakeIn } from '../../../ports/patience.ts'

export type Fetch = typeof fetch

/** Fetches without cookies, cache and redirects, and gives up after so long. */
export function quietFetch(clock: Clock, patience_s: number, call: Fetch): Fetch {
  return async (url, init) => {
    const abort = new AbortController()
    const silence = wakeIn(clock, patience_s * 1000, () => abort.abort())
    try {
      return await call(url, {
        ...init,
        redirect: 'manual',
        credentials: 'omit',
        cache: 'no-store',
        referrerPolicy: 'no-referrer',
        signal: abort.signal,
      })
    } finally {
      silence()
    }
  }
}
