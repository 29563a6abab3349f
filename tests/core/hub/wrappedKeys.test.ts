import { expect, it } from 'vitest'
import { isPublicKey, isWrappedKeys } from '../../../src/core/hub/wrappedKeys.ts'
import { sampleWrapped } from '../../support/sampleRoster.ts'

it('a public key is the SPKI that WebCrypto writes for P-256', async () => {
  for (const [name, uses] of [
    ['ECDH', ['deriveBits']],
    ['ECDSA', ['sign', 'verify']],
  ] as const) {
    const pair = await crypto.subtle.generateKey({ name, namedCurve: 'P-256' }, false, [...uses])
    const spki = await crypto.subtle.exportKey('spki', pair.publicKey)
    expect(isPublicKey(Buffer.from(spki).toString('hex'))).toBe(true)
  }
  const other = await crypto.subtle.generateKey({ name: 'ECDH', namedCurve: 'P-384' }, false, [
    'deriveBits',
  ])
  const spki = await crypto.subtle.exportKey('spki', other.publicKey)
  expect(isPublicKey(Buffer.from(spki).toString('hex'))).toBe(false)
})

it.each([
  [sampleWrapped, true],
  [{ ...sampleWrapped, iv: 'AB'.repeat(12) }, false],
  [{ ...sampleWrapped, iv: '00'.repeat(11) }, false],
  [{ ...sampleWrapped, data: 'abc' }, false],
  [{ ...sampleWrapped, data: 'ab'.repeat(300_001) }, false],
  [{ ...sampleWrapped, from: undefined }, false],
  [null, false],
  ['', false],
])('what is wrapped has its form: %#', (value, is) => {
  expect(isWrappedKeys(value)).toBe(is)
})
