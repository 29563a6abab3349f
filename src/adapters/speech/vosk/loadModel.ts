import { VoskClient } from 'vosk-browser'
import type { SpeechTrouble } from '../../../ports/speech.ts'

export interface ModelPlace {
  /** Absolute addresses. */
  readonly modelUrl: string
  readonly workerUrl: string
  readonly wasmUrl: string
  /** Hex SHA-256 of the archive; without it any archive is taken. */
  readonly sha256?: string
  readonly timeout_ms?: number
}

/** Why a model could not be loaded, in a way the screen can tell. */
export class ModelTrouble extends Error {
  constructor(
    readonly code: SpeechTrouble,
    message: string,
  ) {
    super(message)
  }
}

/** Note of the last archive that was checked and unpacked, so that a start from the cache reads nothing. */
const CHECKED = 'stillhand-model'
/** Where the engine keeps unpacked models; its key is the address alone, so a broken one would stay for good. */
const ENGINE_DATABASE = '/vosk'
const LOAD_TIMEOUT_ms = 30_000

/**
 * Loads the model: checks the archive first, races the engine's answer with its errors and a time-out (the engine
 * itself never answers when loading fails), and after a failure empties the engine's cache and tries once more.
 */
export async function loadModel(place: ModelPlace): Promise<VoskClient> {
  const stamp = `${place.modelUrl} ${place.sha256 ?? ''}`
  const checked = readNote() === stamp
  if (!checked) {
    await checkArchive(place)
    await emptyEngineCache()
  }
  try {
    const client = await startClient(place)
    writeNote(stamp)
    return client
  } catch (error) {
    writeNote('')
    if (!checked) throw error
    await emptyEngineCache()
    await checkArchive(place)
    const client = await startClient(place)
    writeNote(stamp)
    return client
  }
}

async function checkArchive({ modelUrl, sha256 }: ModelPlace): Promise<void> {
  let response: Response
  try {
    response = await fetch(modelUrl)
  } catch {
    throw new ModelTrouble('loadFailed', `The model ${modelUrl} cannot be fetched.`)
  }
  if (!response.ok)
    throw new ModelTrouble('loadFailed', `The model ${modelUrl} is not there (${response.status}).`)
  const bytes = await response.arrayBuffer()
  if (!sha256) return
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))
  const hex = [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('')
  if (hex !== sha256)
    throw new ModelTrouble('wrongChecksum', `The model ${modelUrl} is not the file it should be.`)
}

function startClient({
  modelUrl,
  workerUrl,
  wasmUrl,
  timeout_ms = LOAD_TIMEOUT_ms,
}: ModelPlace): Promise<VoskClient> {
  return new Promise((resolve, reject) => {
    const client = new VoskClient({ modelUrl, workerUrl, wasmUrl, logLevel: -2 })
    const fail = (code: SpeechTrouble, message: string): void => {
      clearTimeout(timer)
      killWorker(client)
      reject(new ModelTrouble(code, message))
    }
    const timer = setTimeout(
      () => fail('loadFailed', 'The model did not load in time.'),
      timeout_ms,
    )
    client.on('load', (message) => {
      clearTimeout(timer)
      if ('result' in message && message.result) resolve(client)
      else fail('badArchive', 'The model archive cannot be used.')
    })
    client.on('error', (message) =>
      fail(
        'badArchive',
        'error' in message && message.error ? message.error : 'The model archive cannot be read.',
      ),
    )
    workerOf(client).addEventListener('error', (event) =>
      fail('loadFailed', event.message || 'The recognizer does not start.'),
    )
  })
}

/** The engine keeps its worker to itself, and its own way of ending only asks; a worker that hangs must be ended. */
export function workerOf(client: VoskClient): Worker {
  return (client as unknown as { readonly worker: Worker }).worker
}

export function killWorker(client: VoskClient): void {
  workerOf(client).terminate()
}

function emptyEngineCache(): Promise<void> {
  return new Promise((resolve) => {
    const request = indexedDB.deleteDatabase(ENGINE_DATABASE)
    request.onsuccess = request.onerror = request.onblocked = () => resolve()
  })
}

function readNote(): string | null {
  try {
    return localStorage.getItem(CHECKED)
  } catch {
    return null
  }
}

function writeNote(text: string): void {
  try {
    localStorage.setItem(CHECKED, text)
  } catch {
    // Without the note the archive is checked again next time.
  }
}
