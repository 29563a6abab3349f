import { archiveFault } from './archiveFault.ts'
import { ModelTrouble } from './engine.ts'
import { errorText } from '../../../core/basics/errorText.ts'

/**
 * Fetches the archive and compares its hash, before the engine gets its address and fetches it again from the cache.
 * @param sha256 hex; without it any archive is taken that holds plain files and leads nowhere else
 * @throws ModelTrouble
 */
export async function checkArchive(
  modelUrl: string,
  sha256: string | undefined,
  timeout_ms: number,
): Promise<void> {
  let bytes: ArrayBuffer
  try {
    const response = await fetch(modelUrl, { signal: AbortSignal.timeout(timeout_ms) })
    if (!response.ok) throw new Error(`HTTP ${response.status}`)
    bytes = await response.arrayBuffer()
  } catch (error) {
    throw new ModelTrouble('loadFailed', `${modelUrl}: ${errorText(error)}`)
  }
  if (sha256 === undefined) {
    const fault = await archiveFault(bytes)
    if (fault !== undefined) throw new ModelTrouble('badArchive', `${modelUrl}: ${fault}`)
    return
  }
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))
  const hex = [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('')
  if (hex !== sha256.toLowerCase()) {
    throw new ModelTrouble('wrongChecksum', `${modelUrl}: SHA-256 ${hex}`)
  }
}
