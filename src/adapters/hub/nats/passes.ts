import { decode, encodeUser } from '@nats-io/jwt'
import { createUser, fromPublic, fromSeed } from '@nats-io/nkeys'
import { JOINING, rightsOf, type HubRole } from './rights.ts'

/** With it a desk lets devices in: whoever has it can make any pass of the clinic. */
export interface SigningKit {
  readonly clinic: string
  /** Public key of the clinic's account. */
  readonly account: string
  readonly signingSeed: string
}

export interface PassWanted {
  readonly role: HubRole
  readonly name: string
  /** Of the key that the new device made for itself; its seed never leaves that device. */
  readonly publicKey: string
  /** In seconds since 1970, by the server's clock. */
  readonly until_s: number
}

/** The key of a device that is to be let in. */
export function newDeviceKey(): { readonly publicKey: string; readonly seed: string } {
  const pair = createUser()
  return { publicKey: pair.getPublicKey(), seed: new TextDecoder().decode(pair.getSeed()) }
}

/** Signs a pass. A joining pass needs no key of its own to be used: it is handed to whoever wants to ask. */
export function signPass(kit: SigningKit, wanted: PassWanted): Promise<string> {
  const { role, publicKey, until_s } = wanted
  const name = role === 'joining' ? JOINING : wanted.name
  const { pub, sub, resp } = rightsOf(role, kit.clinic, name)
  const user = { pub, sub, ...(resp && { resp }), bearer_token: role === 'joining' }
  const signer = fromSeed(new TextEncoder().encode(kit.signingSeed))
  return encodeUser(name, fromPublic(publicKey), fromPublic(kit.account), user, {
    exp: until_s,
    signer,
  })
}

/** Whose pass it is and how long it counts; `undefined` where it is no pass or its signature does not hold. */
export function readPass(
  jwt: string,
): { readonly name: string; readonly publicKey: string; readonly until_s?: number } | undefined {
  try {
    const { name, sub, exp } = decode(jwt)
    return { name, publicKey: sub, ...(exp !== undefined && { until_s: exp }) }
  } catch {
    return undefined
  }
}
