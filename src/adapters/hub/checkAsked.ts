import { HUB_BYTES_MAX, isHubKey, isHubName } from '../../core/hub/hubNames.ts'
import { HubError } from '../../ports/hubFault.ts'

/** Throws where nothing can be kept under this name. */
export function checkName(name: string): string {
  if (!isHubName(name)) throw new HubError('badName', `No name of a log: "${name}"`)
  return name
}

/** Throws where it is no key. */
export function checkKey(key: string): string {
  if (!isHubKey(key)) throw new HubError('badName', `No key: "${key}"`)
  return key
}

/** Throws where it is more than one message may have. */
export function checkSize(bytes: Uint8Array): Uint8Array {
  if (bytes.length > HUB_BYTES_MAX) throw new HubError('tooLarge', `${bytes.length} bytes`)
  return bytes
}

/** Throws where it is no place of an entry. */
export function checkPlace(behind: number): number {
  if (Number.isSafeInteger(behind) && behind >= 0) return behind
  throw new HubError('badName', `No place of an entry: ${behind}`)
}
