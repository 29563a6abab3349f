import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'

const WORKER = join(import.meta.dirname, '../../node_modules/vosk-browser/dist/vosk.worker.js')

/** Put before the recognizer's worker, so that the size of its WebAssembly heap can be read; it never shrinks. */
const WATCH = `const heaps = []
for (const name of ['instantiate', 'instantiateStreaming']) {
  const plain = WebAssembly[name].bind(WebAssembly)
  WebAssembly[name] = async (...args) => {
    const made = await plain(...args)
    for (const part of Object.values((made.instance ?? made).exports)) if (part instanceof WebAssembly.Memory) heaps.push(part)
    return made
  }
}
self.stillhandHeap_B = () => heaps.reduce((sum, heap) => sum + heap.buffer.byteLength, 0)
`

/** The recognizer's worker with the watch on its memory, to be served in its place. */
export const watchedWorker = (): Uint8Array => Buffer.from(WATCH + readFileSync(WORKER, 'utf8'))

export interface WorkerMemory {
  /** The WebAssembly heap, with the decoder and the built model in it, MB of 2^20 bytes. */
  readonly heap_MB: number
  /** Everything of JavaScript's, with the unpacked files in it. */
  readonly script_MB: number
}

/** Needs a page that is isolated from other origins and the watched worker. */
export async function workerMemory(page: Page): Promise<WorkerMemory> {
  const worker = page.workers().find((each) => each.url().endsWith('/vosk.worker.js'))
  const heap_B = await worker?.evaluate(() =>
    (self as unknown as { stillhandHeap_B(): number }).stillhandHeap_B(),
  )
  const script_B = await page.evaluate(async () => {
    const { breakdown } = await (
      performance as unknown as {
        measureUserAgentSpecificMemory(): Promise<{
          breakdown: { bytes: number; attribution: { url: string }[] }[]
        }>
      }
    ).measureUserAgentSpecificMemory()
    return breakdown
      .filter(({ attribution }) => attribution.some(({ url }) => url.endsWith('/vosk.worker.js')))
      .reduce((sum, { bytes }) => sum + bytes, 0)
  })
  return { heap_MB: (heap_B ?? NaN) / 2 ** 20, script_MB: script_B / 2 ** 20 }
}
