import type { VoskClient } from 'vosk-browser'
import { ModelTrouble } from './engine.ts'

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
    const fail = (code: ModelTrouble['code'], message: string): void => {
      clearTimeout(timer)
      workerOf(client).terminate()
      reject(new ModelTrouble(code, message))
    }
    const timer = setTimeout(
      () => fail('loadFailed', 'The speech model did not load in time.'),
      timeout_ms,
    )
    client.on('load', () => {
      clearTimeout(timer)
      resolve(client)
    })
    client.on('error', (message) => {
      // Errors from inside the engine come without a text.
      const why = 'error' in message && message.error ? message.error : 'it cannot be read'
      const engineMissing = /wasm|WebAssembly|Aborted/.test(why)
      fail(engineMissing ? 'loadFailed' : 'badArchive', `The speech model is of no use: ${why}.`)
    })
    workerOf(client).addEventListener('error', (event) => {
      fail(
        'loadFailed',
        `The recognizer does not start: ${event.message || 'its file is missing'}.`,
      )
    })
  })
}

/** The engine keeps its worker to itself, and its own way of ending only asks; one that hangs must be ended. */
export function workerOf(client: VoskClient): Worker {
  return (client as unknown as { readonly worker: Worker }).worker
}
