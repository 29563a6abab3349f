import { createPublicKey, sign, verify } from 'node:crypto'
import type { VerifySignature } from '../../src/core/log/exportFile.ts'
import type { DeviceKey } from '../../src/ports/deviceKey.ts'
import { sampleKey } from './sampleExport.ts'

/** ECDSA signatures as WebCrypto writes them: r and s side by side (IEEE P1363). */
const ENCODING = { dsaEncoding: 'ieee-p1363' } as const

/** A device key by Node's own crypto, where no browser keeps one. */
export function nodeDeviceKey(): DeviceKey {
  const { privateKey, publicKey, keyId } = sampleKey()
  return {
    identity: () => Promise.resolve({ publicKey, keyId }),
    sign: (text) =>
      Promise.resolve(
        sign('sha256', Buffer.from(text), { key: privateKey, ...ENCODING }).toString('hex'),
      ),
  }
}

export const nodeVerify: VerifySignature = (publicKey, text, signature) => {
  const key = createPublicKey({
    key: Buffer.from(publicKey, 'hex'),
    format: 'der',
    type: 'spki',
  })
  const bytes = Buffer.from(signature, 'hex')
  return Promise.resolve(verify('sha256', Buffer.from(text), { key, ...ENCODING }, bytes))
}
