import { openDB } from 'idb'
import { isRecord } from '../../core/basics/isRecord.ts'

const ECDSA_P384 = { name: 'ECDSA', namedCurve: 'P-384' } as const
const KEY = 'record-server'

/** The key by which this device logs in at the site's record server. */
export interface ServerKey {
  /** The private half cannot be read out of this browser. */
  named(): Promise<{ readonly key: CryptoKey; readonly kid: string }>
  /** The public half as a JWK Set (RFC 7517), for whoever looks after the authorization server. */
  publicKeys(): Promise<string>
}

const isPair = (known: unknown): known is CryptoKeyPair =>
  isRecord(known) && known.privateKey instanceof CryptoKey && known.publicKey instanceof CryptoKey

/** Made on first use, never extractable, kept as a `CryptoKey` beside the one that signs exports. */
export function createBrowserServerKey(databaseName = 'stillhand-key'): ServerKey {
  let pair: Promise<CryptoKeyPair> | undefined
  const kept = (): Promise<CryptoKeyPair> =>
    (pair ??= keyPair(databaseName).catch((error: unknown) => {
      pair = undefined
      throw error
    }))
  return {
    named: async () => {
      const { privateKey, publicKey } = await kept()
      return { key: privateKey, kid: await thumbprint(publicKey) }
    },
    publicKeys: async () => {
      const { publicKey } = await kept()
      const { kty, crv, x, y } = await crypto.subtle.exportKey('jwk', publicKey)
      const kid = await thumbprint(publicKey)
      const key = { kty, crv, x, y, kid, alg: 'ES384', use: 'sig', key_ops: ['verify'] }
      return `${JSON.stringify({ keys: [key] }, null, 2)}\n`
    },
  }
}

/** RFC 7638: the digest of the members that a key cannot be without, in the order of their names. */
async function thumbprint(key: CryptoKey): Promise<string> {
  const { crv, kty, x, y } = await crypto.subtle.exportKey('jwk', key)
  const bytes = new TextEncoder().encode(JSON.stringify({ crv, kty, x, y }))
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))
  const text = btoa(String.fromCharCode(...digest))
  return text.replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '')
}

async function keyPair(databaseName: string): Promise<CryptoKeyPair> {
  const made = await crypto.subtle.generateKey(ECDSA_P384, false, ['sign', 'verify'])
  const db = await openDB(databaseName, 1, { upgrade: (d) => void d.createObjectStore('keys') })
  try {
    const tx = db.transaction('keys', 'readwrite', { durability: 'strict' })
    // Another tab may have made one meanwhile: the first one stays.
    const known: unknown = await tx.store.get(KEY)
    if (!isPair(known)) await tx.store.put(made, KEY)
    await tx.done
    return isPair(known) ? known : made
  } finally {
    db.close()
  }
}
