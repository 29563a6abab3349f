import { isRecord } from '../../core/basics/isRecord.ts'
import type { Salvaged } from '../../core/basics/result.ts'
import { parseJson } from '../../core/text/parseJson.ts'
import { readText } from '../../core/text/readText.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'

/** A key that somebody at this site has said whose it is. */
export interface TrustedKey {
  /** SPKI in lower-case hex: the whole key, for a short name could be made to fit another. */
  readonly publicKey: string
  /** Whose it is, in the words of who added it. */
  readonly name: string
  /** `YYYY-MM-DD` */
  readonly since: string
}

const KEY = 'trustedKeys'
/** The public key of P-256 as SPKI: 91 bytes. */
const PUBLIC_KEY = /^[0-9a-f]{182}$/

/** True for the text of a public key as an export holds it. */
export const isPublicKey = (text: string): boolean => PUBLIC_KEY.test(text)

/** The keys that a site knows, kept with its settings. What does not read is left out and told, never trusted. */
export interface Keyring {
  /** The fault, if there is one, is only that something could not be read. */
  read(): Promise<Salvaged<readonly TrustedKey[], 'unread'>>
  /** Reads anew before it writes, so that another page's keys stay. */
  change(change: (keys: readonly TrustedKey[]) => readonly TrustedKey[]): Promise<void>
}

export function createKeyring(store: SettingsStore): Keyring {
  const read: Keyring['read'] = async () => readTrustedKeys(await store.read(KEY))
  return {
    read,
    change: async (change) => store.write(KEY, JSON.stringify(change((await read()).value))),
  }
}

function readTrustedKeys(json: string | undefined): Salvaged<readonly TrustedKey[], 'unread'> {
  if (json === undefined) return { value: [], faults: [] }
  const reading = parseJson(json)
  const list = reading.ok && Array.isArray(reading.value) ? (reading.value as unknown[]) : undefined
  const keys = (list ?? []).flatMap((each) => trustedKey(each) ?? [])
  const whole = list !== undefined && keys.length === list.length
  return { value: keys, faults: whole ? [] : ['unread'] }
}

function trustedKey(value: unknown): TrustedKey | undefined {
  if (!isRecord(value)) return undefined
  const { publicKey, name, since } = value
  if (typeof publicKey !== 'string' || !isPublicKey(publicKey)) return undefined
  if (typeof name !== 'string' || typeof since !== 'string') return undefined
  const read = readText(name, 'name')
  return read.ok && read.value !== '' ? { publicKey, name: read.value, since } : undefined
}
