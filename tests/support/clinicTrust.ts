import {
  createEnvelopes,
  type ClinicSealer,
  type Envelopes,
  type TrustedDevices,
} from '../../src/app/hub/envelopes.ts'
import type { Sign, VerifySignature } from '../../src/core/log/exportFile.ts'
import { sha256 } from './sampleLog.ts'

/** A fault as the clinic's keys name it. */
class Unopened extends Error {
  constructor(readonly fault: 'unknownKey' | 'damaged') {
    super(fault)
  }
}

/** Seals so that the text cannot be read in passing and opens only in its own context; no cipher, but quick. */
export function quickSealer(key = 'k1', known: readonly string[] = [key]): ClinicSealer {
  const turned = (bytes: Uint8Array): Uint8Array<ArrayBuffer> =>
    Uint8Array.from(bytes, (byte) => byte ^ 0x5a)
  return {
    seal: (context, text) => {
      const data = turned(new TextEncoder().encode(JSON.stringify([context, text])))
      return Promise.resolve({ key, sealed: { iv: new Uint8Array(12), data } })
    },
    open: (context, name, { data }) => {
      if (!known.includes(name)) return Promise.reject(new Unopened('unknownKey'))
      try {
        const [of, text] = JSON.parse(new TextDecoder().decode(turned(data))) as [string, string]
        if (of === context) return Promise.resolve(text)
      } catch {
        // Not what was sealed.
      }
      return Promise.reject(new Unopened('damaged'))
    },
  }
}

/** Signs as that device does. */
export const quickSign =
  (device: string): Sign =>
  (text) =>
    Promise.resolve(quickSignature(device, text))

const quickSignature = (device: string, text: string): string => sha256(`${device}|${text}`)
export const quickVerify: VerifySignature = (publicKey, text, signature) =>
  Promise.resolve(signature === quickSignature(publicKey, text))

/** Trusts these devices, each called by its id with a capital letter; their "key" is their id. */
export function trusting(
  devices: readonly string[],
  revoked: Readonly<Record<string, number>> = {},
): TrustedDevices {
  return {
    verdict: (device, at_ms) => {
      if (!devices.includes(device)) return 'unknown'
      return at_ms >= (revoked[device] ?? Infinity) ? 'revoked' : 'trusted'
    },
    signingKey: (device) => (devices.includes(device) ? device : undefined),
    nameOf: (device) => (devices.includes(device) ? device.toUpperCase() : undefined),
  }
}

/** The envelopes of one device of a clinic of these. */
export const quickEnvelopes = (
  device: string,
  trust: TrustedDevices = trusting(['a', 'b', 'c']),
  sealer: ClinicSealer = quickSealer(),
): Envelopes =>
  createEnvelopes({
    device,
    sealer,
    sign: quickSign(device),
    verify: quickVerify,
    trust,
  })
