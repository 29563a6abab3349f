import type { VoskClient } from 'vosk-browser'
import { ModelTrouble, type ModelFault } from './engine.ts'

export interface ModelUrls {
  /** Absolute addresses. */
  readonly modelUrl: string
  readonly workerUrl: string
  readonly wasmUrl: string
}

/** Warnings and errors of the engine only; it writes them to the console. */
const LOG_LEVEL = -1

/**
 * Starts the engine's worker and loads the model. The package's own promise never settles when loading fails, so the
 * answer is raced with the engine's error, the worker's, and a time-out.
 * @throws ModelTrouble
 */
export async function startClient(urls: ModelUrls, timeout_ms: number): Promise<VoskClient> {
  const { VoskClient: Client } = await import('vosk-browser')
  return new Promise((resolve, reject) => {
    const client = new Client({ ...urls, logLevel: LOG_LEVEL })
    const fail = (code: ModelFault['code'], detail?: string): void => {
      clearTimeout(timer)
      workerOf(client).terminate()
      reject(new ModelTrouble(code, detail))
    }
    const timer = setTimeout(() => fail('loadFailed', `> ${timeout_ms} ms`), timeout_ms)
    client.on('load', () => {
      clearTimeout(timer)
      resolve(client)
    })
    client.on('error', (message) => {
      // Errors from inside the engine come without a text.
      const detail = 'error' in message && message.error ? message.error : undefined
      const engineMissing = detail !== undefined && /wasm|WebAssembly|Aborted/.test(detail)
      fail(engineMissing ? 'loadFailed' : 'badArchive', detail)
    })
    workerOf(client).addEventListener('error', (event) => {
      // A worker whose file is missing says nothing.
      fail('loadFailed', event.message || urls.workerUrl)
    })
  })
}

/** The engine keeps its worker to itself, and its own way of ending only asks; one that hangs must be ended. */
export function workerOf(client: VoskClient): Worker {
  return (client as unknown as { readonly worker: Worker }).worker
}
