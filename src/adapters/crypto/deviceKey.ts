import { openDB } from 'idb'
import { isRecord } from '../../core/basics/isRecord.ts'
import type { Clock } from '../../ports/clock.ts'
import type { DeviceKey } from '../../ports/deviceKey.ts'
import { within } from '../../ports/patience.ts'
import { ECDSA_P256, ECDSA_SHA256 } from './algorithms.ts'
import { toHex } from './hex.ts'
import { sha256 } from './sha256.ts'

/** So long the key is looked for where it is kept. */
const PATIENCE_ms = 1500

/**
 * The key of this browser: made on first use, not extractable, kept as a `CryptoKey` in IndexedDB. Scripts can sign
 * with it but nobody can read it, so it cannot leave. Where the storage fails or hangs, one that lives as long as the
 * page signs in its place: then above all a record must be able to leave whole.
 * @throws Error in words where the page has no WebCrypto (plain http other than localhost).
 */
export function createBrowserDeviceKey(clock: Clock, databaseName = 'stillhand-key'): DeviceKey {
  let pair: Promise<CryptoKeyPair> | undefined
  const key = (): Promise<CryptoKeyPair> => (pair ??= keptOrFleeting())
  async function keptOrFleeting(): Promise<CryptoKeyPair> {
    if (!globalThis.crypto?.subtle) {
      throw new Error('Signing needs a secure page: open the app by https or on localhost.')
    }
    const late = (): Error => new Error('The storage does not answer.')
    return within(clock, PATIENCE_ms, keyPair(databaseName), late).catch(newPair)
  }
  return {
    identity: async () => {
      const spki = await crypto.subtle.exportKey('spki', (await key()).publicKey)
      const publicKey = toHex(spki)
      return { publicKey, keyId: sha256(publicKey).slice(0, 16) }
    },
    sign: async (text) => {
      const bytes = new TextEncoder().encode(text)
      return toHex(await crypto.subtle.sign(ECDSA_SHA256, (await key()).privateKey, bytes))
    },
  }
}

const newPair = (): Promise<CryptoKeyPair> =>
  crypto.subtle.generateKey(ECDSA_P256, false, ['sign', 'verify'])

/** A record that is damaged, or came without its key out of a copy of the profile, is no key. */
const isPair = (known: unknown): known is CryptoKeyPair =>
  isRecord(known) && known.privateKey instanceof CryptoKey && known.publicKey instanceof CryptoKey

async function keyPair(databaseName: string): Promise<CryptoKeyPair> {
  const db = await openDB(databaseName, 1, { upgrade: (d) => void d.createObjectStore('keys') })
  try {
    const known: unknown = await db.get('keys', 'device')
    if (isPair(known)) return known
    const made = await newPair()
    const tx = db.transaction('keys', 'readwrite', { durability: 'strict' })
    // Another tab may have made one meanwhile: the first one stays.
    const first: unknown = await tx.store.get('device')
    const isFirst = !isPair(first)
    if (isFirst) await tx.store.put(made, 'device')
    await tx.done
    return isFirst ? made : first
  } finally {
    db.close()
  }
}
