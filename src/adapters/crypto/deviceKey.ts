import { openDB } from 'idb'
import type { DeviceKey } from '../../ports/deviceKey.ts'
import { ECDSA_P256, ECDSA_SHA256 } from './algorithms.ts'
import { toHex } from './hex.ts'
import { sha256 } from './sha256.ts'

/**
 * The key of this browser: made on first use, not extractable, kept as a `CryptoKey` in IndexedDB. Scripts can sign
 * with it but nobody can read it, so it cannot leave.
 * @throws Error in words where the page has no WebCrypto (plain http other than localhost).
 */
export function createBrowserDeviceKey(databaseName = 'stillhand-key'): DeviceKey {
  let pair: Promise<CryptoKeyPair> | undefined
  const key = (): Promise<CryptoKeyPair> =>
    (pair ??= keyPair(databaseName).catch((error: unknown) => {
      pair = undefined
      throw error
    }))
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

async function keyPair(databaseName: string): Promise<CryptoKeyPair> {
  if (!globalThis.crypto?.subtle) {
    throw new Error('Signing needs a secure page: open the app by https or on localhost.')
  }
  const db = await openDB(databaseName, 1, { upgrade: (d) => void d.createObjectStore('keys') })
  try {
    const known = (await db.get('keys', 'device')) as CryptoKeyPair | undefined
    if (known) return known
    const made = await crypto.subtle.generateKey(ECDSA_P256, false, ['sign', 'verify'])
    const tx = db.transaction('keys', 'readwrite', { durability: 'strict' })
    // Another tab may have made one meanwhile: the first one stays.
    const first = (await tx.store.get('device')) as CryptoKeyPair | undefined
    if (!first) await tx.store.put(made, 'device')
    await tx.done
    return first ?? made
  } finally {
    db.close()
  }
}
