/** Everything a region is closed with, and the pass with which a clinic hands its stream on to it. */
import { encodeAccount, encodeOperator, encodeUser, fmtCreds } from '@nats-io/jwt'
import { createAccount, createOperator, createUser, fromPublic, fromSeed } from '@nats-io/nkeys'
import { isHubName } from '../../src/core/hub/hubNames.ts'
import { authConf, type HubPassFile } from './clinicKeys.ts'

/** With it further clinics are let in; stays at the region. */
export interface RegionKit {
  readonly account: string
  readonly accountSeed: string
}

export interface RegionKeys {
  readonly kit: RegionKit
  /** Makes the region's stream and looks after it. */
  readonly admin: HubPassFile
  /** The part of the server's configuration that says whom to believe. */
  readonly authConf: string
}

const OPEN = { conn: -1, subs: -1, data: -1, payload: -1, leaf: -1, imports: -1, exports: -1 }
const STREAMS = { disk_storage: -1, mem_storage: -1, streams: -1, consumer: -1, wildcards: true }
const seedOf = (pair: { getSeed(): Uint8Array }): string => new TextDecoder().decode(pair.getSeed())

export async function makeRegionKeys(region: string): Promise<RegionKeys> {
  const [operator, system, account] = [createOperator(), createAccount(), createAccount()]
  const signer = operator
  const systemLimits = { limits: { ...OPEN, wildcards: true } }
  const systemJwt = await encodeAccount('SYS', system, systemLimits, { signer })
  const limits = { limits: { ...OPEN, ...STREAMS } }
  const accountJwt = await encodeAccount(region, account, limits, { signer })
  const systemAccount = system.getPublicKey()
  const operatorJwt = await encodeOperator('stillhand', operator, { system_account: systemAccount })
  const publicKey = account.getPublicKey()
  const admin = createUser()
  return {
    kit: { account: publicKey, accountSeed: seedOf(account) },
    admin: { jwt: await encodeUser('admin', admin, account, {}), seed: seedOf(admin) },
    authConf: authConf({ operatorJwt, systemAccount, systemJwt, account: publicKey, accountJwt }),
  }
}

/** How a leaf of that name is called in `leaf.conf`: a word that may stand in a subject. */
export const isLeafName = (name: string): boolean => isHubName(name) && /^[\w-]+$/.test(name)

/**
 * The text of `region.creds`. Over the line the region asks the clinic's streams, and what they give comes back;
 * nothing else passes, so that no clinic hears or asks another.
 * @param leaf the clinic's HUB_CLINIC
 */
export async function leafCreds(
  { account, accountSeed }: RegionKit,
  leaf: string,
  until_s: number,
): Promise<string> {
  const user = createUser()
  const rights = {
    // Seen from the region: what the clinic may send into it, and what of it reaches the clinic.
    pub: { allow: ['$JSC.R.>', '$JS.S.>', '$JS.FC.>'] },
    sub: { allow: [`$JS.${leaf}.API.CONSUMER.>`, '$JS.FC.>', '$JS.ACK.>'] },
  }
  const jwt = await encodeUser(leaf, user, fromPublic(account), rights, {
    exp: until_s,
    signer: fromSeed(new TextEncoder().encode(accountSeed)),
  })
  return new TextDecoder().decode(fmtCreds(jwt, user))
}
