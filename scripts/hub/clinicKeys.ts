/** Everything a clinic's hub is closed with: who signs whom, and the first passes. */
import { encodeAccount, encodeOperator, encodeUser } from '@nats-io/jwt'
import { createAccount, createOperator, createUser, type KeyPair } from '@nats-io/nkeys'
import { newDeviceKey, signPass, type SigningKit } from '../../src/adapters/hub/nats/passes.ts'
import { JOINING } from '../../src/adapters/hub/nats/rights.ts'

export interface HubPassFile {
  readonly jwt: string
  readonly seed: string
}

export interface ClinicKeys {
  readonly clinic: string
  readonly operatorJwt: string
  readonly operatorSeed: string
  readonly systemAccount: string
  readonly systemJwt: string
  readonly account: string
  readonly accountJwt: string
  readonly signing: SigningKit
  /** Makes the streams and looks after them; stays at the hub. */
  readonly admin: HubPassFile
  /** Changes accounts: cuts devices off. */
  readonly system: HubPassFile
  /** Lets a stranger ask to join, and nothing else; may be shown to anybody. */
  readonly joiningJwt: string
}

export const DAY_s = 86_400

const seedOf = (pair: KeyPair): string => new TextDecoder().decode(pair.getSeed())
const OPEN = { conn: -1, subs: -1, data: -1, payload: -1, leaf: -1, imports: -1, exports: -1 }
const STREAMS = { disk_storage: -1, mem_storage: -1, streams: -1, consumer: -1, wildcards: true }

/** @param joining_s so long the joining pass counts */
export async function makeClinicKeys(
  clinic: string,
  now_s: number,
  joining_s = 365 * DAY_s,
): Promise<ClinicKeys> {
  const [operator, system, account, signing] = [
    createOperator(),
    createAccount(),
    createAccount(),
    createAccount(),
  ]
  const signer = operator
  const systemJwt = await encodeAccount(
    'SYS',
    system,
    { limits: { ...OPEN, wildcards: true } },
    { signer },
  )
  const accountJwt = await encodeAccount(
    clinic,
    account,
    { limits: { ...OPEN, ...STREAMS }, signing_keys: [signing.getPublicKey()] },
    { signer },
  )
  const operatorJwt = await encodeOperator('stillhand', operator, {
    system_account: system.getPublicKey(),
  })
  const full = async (name: string, of: KeyPair): Promise<HubPassFile> => {
    const user = createUser()
    return { jwt: await encodeUser(name, user, of, {}), seed: seedOf(user) }
  }
  const kit = { clinic, account: account.getPublicKey(), signingSeed: seedOf(signing) }
  const stranger = newDeviceKey()
  const joiningPass = { name: JOINING, role: 'joining' as const, until_s: now_s + joining_s }
  return {
    clinic,
    operatorJwt,
    operatorSeed: seedOf(operator),
    systemAccount: system.getPublicKey(),
    systemJwt,
    account: account.getPublicKey(),
    accountJwt,
    signing: kit,
    admin: await full('admin', account),
    system: await full('system', system),
    joiningJwt: await signPass(kit, { ...joiningPass, publicKey: stranger.publicKey }),
  }
}

/** The part of the server's configuration that says whom to believe at first; the accounts may be changed later. */
export const authConf = (
  keys: Pick<ClinicKeys, 'operatorJwt' | 'systemAccount' | 'systemJwt' | 'account' | 'accountJwt'>,
): string => `operator: ${keys.operatorJwt}
system_account: ${keys.systemAccount}
resolver_preload: {
  ${keys.systemAccount}: ${keys.systemJwt}
  ${keys.account}: ${keys.accountJwt}
}
`
