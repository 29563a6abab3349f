import 'fake-indexeddb/auto'
import { createHash, createPublicKey, verify } from 'node:crypto'
import { describe, expect, it, vi } from 'vitest'
import { createBrowserDeviceKey } from '../../../src/adapters/crypto/deviceKey.ts'
import { fromHex } from '../../../src/adapters/crypto/hex.ts'
import { sha256 } from '../../../src/adapters/crypto/sha256.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import { verifySignature } from '../../../src/adapters/crypto/verifySignature.ts'

const clock = createSystemClock('boot')

describe('sha256', () => {
  // FIPS 180-4 examples: the one-block and the two-block message.
  it.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
  ])('hashes %s as FIPS 180-4 says', (text, hash) => {
    expect(sha256(text)).toBe(hash)
  })

  it('agrees with the platform on text that is not ASCII', () => {
    const text = 'µL – 😀'
    expect(sha256(text)).toBe(createHash('sha256').update(text, 'utf8').digest('hex'))
  })
})

describe('browserDeviceKey', () => {
  it('signs so that its public key verifies, here and with another library', async () => {
    const key = createBrowserDeviceKey(clock, 'key-1')
    const { publicKey, keyId } = await key.identity()
    const signature = await key.sign('the text')
    expect(await verifySignature(publicKey, 'the text', signature)).toBe(true)
    const other = createPublicKey({
      key: Buffer.from(publicKey, 'hex'),
      format: 'der',
      type: 'spki',
    })
    const asNode = { key: other, dsaEncoding: 'ieee-p1363' } as const
    const valid = verify('sha256', Buffer.from('the text'), asNode, Buffer.from(signature, 'hex'))
    expect(valid).toBe(true)
    expect(keyId).toBe(sha256(publicKey).slice(0, 16))
  })

  it('does not verify another text, signature or key', async () => {
    const key = createBrowserDeviceKey(clock, 'key-2')
    const { publicKey } = await key.identity()
    const signature = await key.sign('the text')
    const stranger = await createBrowserDeviceKey(clock, 'key-3').identity()
    expect(await verifySignature(publicKey, 'the texts', signature)).toBe(false)
    expect(await verifySignature(stranger.publicKey, 'the text', signature)).toBe(false)
    expect(await verifySignature(publicKey, 'the text', signature.toUpperCase())).toBe(false)
    expect(await verifySignature('zz', 'the text', signature)).toBe(false)
  })

  it('is the same key each time it is opened', async () => {
    const first = await createBrowserDeviceKey(clock, 'key-4').identity()
    expect(await createBrowserDeviceKey(clock, 'key-4').identity()).toEqual(first)
    expect((await createBrowserDeviceKey(clock, 'key-5').identity()).publicKey).not.toBe(
      first.publicKey,
    )
  })

  it('keeps a private key that cannot be read out', async () => {
    await createBrowserDeviceKey(clock, 'key-6').identity()
    const { openDB } = await import('idb')
    const db = await openDB('key-6')
    const { privateKey } = (await db.get('keys', 'device')) as CryptoKeyPair
    db.close()
    expect(privateKey.extractable).toBe(false)
    await expect(crypto.subtle.exportKey('pkcs8', privateKey)).rejects.toThrow()
    expect(() => fromHex('xyz')).toThrow(RangeError)
  })

  it('whose record is damaged is made anew, and kept', async () => {
    const { openDB } = await import('idb')
    const db = await openDB('key-9', 1, { upgrade: (d) => void d.createObjectStore('keys') })
    await db.put('keys', { privateKey: {}, publicKey: {} }, 'device')
    db.close()
    const made = await createBrowserDeviceKey(clock, 'key-9').identity()
    expect(await createBrowserDeviceKey(clock, 'key-9').identity()).toEqual(made)
  })

  it('that cannot be kept signs all the same, as one key for as long as the page lives', async () => {
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('The disk is full.', 'QuotaExceededError')
    })
    const key = createBrowserDeviceKey(clock, 'key-7')
    const { publicKey } = await key.identity()
    expect(put).toHaveBeenCalled()
    put.mockRestore()
    expect(await verifySignature(publicKey, 'the text', await key.sign('the text'))).toBe(true)
    expect((await key.identity()).publicKey).toBe(publicKey)
    // Nothing was kept: the next page has another key.
    const next = createBrowserDeviceKey(clock, 'key-7')
    expect((await next.identity()).publicKey).not.toBe(publicKey)
  })

  it('that is looked for on a disk which never answers is not waited for', async () => {
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => new EventTarget() as never)
    const key = createBrowserDeviceKey(clock, 'key-8')
    const { publicKey } = await key.identity()
    expect(await verifySignature(publicKey, 'a', await key.sign('a'))).toBe(true)
  })
})
