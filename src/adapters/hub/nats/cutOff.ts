import { decode, encodeAccount, type Account } from '@nats-io/jwt'
import type { NatsConnection } from '@nats-io/nats-core'
import { fromPublic, fromSeed } from '@nats-io/nkeys'
import { HubError } from '../../../ports/hubFault.ts'

/** With it devices are cut off: whoever has it can change everything about the clinic's account. */
export interface CutOffKit {
  readonly account: string
  readonly operatorSeed: string
}

interface Answer {
  readonly error?: { readonly description?: string }
}

/**
 * Takes away the passes of devices that were signed until now: the server ends their connections and lets none of them
 * in again, on every node. A device that is let in anew needs a new pass.
 * @param connection one with a pass of the server's own account, which alone may change accounts
 * @returns how many devices are cut off by now, these included
 */
export async function cutOff(
  connection: NatsConnection,
  { account, operatorSeed }: CutOffKit,
  publicKeys: readonly string[],
  now_s: number,
  patience_ms: number,
): Promise<number> {
  const timeout = patience_ms
  const found = await connection.request(`$SYS.REQ.ACCOUNT.${account}.CLAIMS.LOOKUP`, '', {
    timeout,
  })
  const claims = decode<Account>(found.string())
  const revoked = Object.fromEntries(publicKeys.map((key) => [key, now_s]))
  const { type: _type, version: _version, ...kept } = claims.nats
  const revocations = { ...kept.revocations, ...revoked }
  const signer = fromSeed(new TextEncoder().encode(operatorSeed))
  const next = await encodeAccount(
    claims.name,
    fromPublic(account),
    { ...kept, revocations },
    { signer },
  )
  const said = await connection.request('$SYS.REQ.CLAIMS.UPDATE', next, { timeout })
  const { error } = said.json<Answer>()
  if (error) throw new HubError('refused', error.description ?? 'The account was not changed')
  return Object.keys(revocations).length
}
