import { slowKeyNow, type SlowKey } from './slowKey.ts'

type Answer = { readonly key: Uint8Array<ArrayBuffer> } | { readonly reason: string }

/**
 * Makes the key in a worker of its own, so that clocks and alarms of the page go on meanwhile, and ends it after: its
 * memory is given back and holds no PIN. Where no worker can be started the page makes the key itself.
 */
export function createWorkerSlowKey(start: () => Worker): SlowKey {
  return (pin, parameters) => {
    let worker: Worker
    try {
      worker = start()
    } catch {
      return Promise.resolve(slowKeyNow(pin, parameters))
    }
    return new Promise<Uint8Array<ArrayBuffer>>((resolve, reject) => {
      worker.onmessage = ({ data }: MessageEvent<Answer>) => {
        if ('key' in data) resolve(data.key)
        else reject(new Error(data.reason))
      }
      worker.onerror = () => resolve(slowKeyNow(pin, parameters))
      worker.postMessage({ pin, parameters })
    }).finally(() => worker.terminate())
  }
}
