import type { RecognizerMessage, VoskClient } from 'vosk-browser'
import { RATE_Hz } from './audioSource.ts'
import { checkArchive } from './checkArchive.ts'
import type { Engine, EngineReply } from './engine.ts'
import { emptyEngineCache, readMarker, writeMarker } from './engineCache.ts'
import { startClient, workerOf, type ModelUrls } from './startClient.ts'

export interface ModelOptions extends ModelUrls {
  /** Hex SHA-256 of the archive; without it any archive is taken. */
  readonly sha256?: string
  readonly loadTimeout_ms?: number
}

const LOAD_TIMEOUT_ms = 20_000

/**
 * Loads the model, from the engine's cache if the same archive was checked and unpacked before. A cache that proves
 * broken is emptied and everything tried once more from the archive.
 * @throws ModelTrouble
 */
export async function openVoskEngine(options: ModelOptions): Promise<Engine> {
  const { modelUrl, workerUrl, wasmUrl, loadTimeout_ms = LOAD_TIMEOUT_ms } = options
  const marker = `${modelUrl} ${options.sha256 ?? ''}`
  const start = (): Promise<VoskClient> =>
    startClient({ modelUrl, workerUrl, wasmUrl }, loadTimeout_ms)
  const fromCache = (await readMarker()) === marker
  if (fromCache) {
    try {
      return engineOf(await start())
    } catch {
      // The cache may be broken: below it is made again.
    }
  }
  await emptyEngineCache()
  await checkArchive(modelUrl, options.sha256, loadTimeout_ms)
  try {
    const client = await start()
    writeMarker(marker)
    return engineOf(client)
  } catch (error) {
    await emptyEngineCache()
    throw error
  }
}

function engineOf(client: VoskClient): Engine {
  const worker = workerOf(client)
  return {
    recognizer(phrases, onReply) {
      const grammar = JSON.stringify([...phrases, '[unk]'])
      // Words stay off: with them on, partial results come after the end of speech instead of before it.
      const recognizer = new client.KaldiRecognizer(RATE_Hz, grammar)
      const pass = (message: RecognizerMessage): void => onReply(replyOf(message))
      recognizer.on('partialresult', pass)
      recognizer.on('result', pass)
      recognizer.on('error', pass)
      return {
        accept: (samples) => recognizer.acceptWaveformFloat(samples, RATE_Hz),
        askFinal: () => recognizer.retrieveFinalResult(),
        remove: () => recognizer.remove(),
      }
    },
    onDeath: (observer) => worker.addEventListener('error', observer, { once: true }),
    close: () => worker.terminate(),
  }
}

function replyOf(message: RecognizerMessage): EngineReply {
  switch (message.event) {
    case 'partialresult':
      return { kind: 'partial', text: message.result.partial }
    case 'result':
      return { kind: 'final', text: message.result.text }
    case 'error':
      return { kind: 'error', text: message.error }
  }
}
