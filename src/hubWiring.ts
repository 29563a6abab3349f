import { createClinicKeys } from './adapters/crypto/clinicKeys.ts'
import { toHex } from './adapters/crypto/hex.ts'
import { createJoinCrypto } from './adapters/crypto/joinCrypto.ts'
import { sha256 } from './adapters/crypto/sha256.ts'
import type { SlowKey } from './adapters/crypto/slowKey.ts'
import { verifySignature } from './adapters/crypto/verifySignature.ts'
import { createBrowserHub, dialBrowser, type ShownPass } from './adapters/hub/nats/browserHub.ts'
import { createNatsRights } from './adapters/hub/nats/natsRights.ts'
import { readPass } from './adapters/hub/nats/passes.ts'
import { createWebTurn } from './adapters/lock/webTurn.ts'
import type { Connection } from './adapters/storage/connection.ts'
import { createIndexedDbHubStore } from './adapters/storage/hubStore.ts'
import type { AppDeps } from './app/appDeps.ts'
import type { ClinicMember, ClinicSetupDeps } from './app/hub/setup/clinicSetup.ts'
import { createClinicSetup } from './app/hub/setup/createClinicSetup.ts'
import { createEntering } from './app/hub/setup/entering.ts'
import type { WiredHub } from './app/hub/setup/findHub.ts'
import { openMember } from './app/hub/openMember.ts'
import { createEmitter } from './core/basics/emitter.ts'
import type { HubSite } from './core/hub/hubSite.ts'
import type { SecretStore } from './ports/secretStore.ts'

/** Joins the parts for a clinic's hub. Loaded only where a site has one: it brings the hub's library. */

export interface HubWiringDeps extends Pick<
  AppDeps,
  'clock' | 'logStore' | 'dayStore' | 'settingsStore' | 'deviceKey'
> {
  readonly connection: Connection
  readonly secrets: SecretStore
  readonly slowKey: SlowKey
  readonly tellOthers: () => void
  readonly startAnew: () => void
}

/** What belongs to the server's own account and to nobody in the clinic. */
const SYSTEM = 'system'
const DEVICE_ID_bytes = 8

const lot = (): number => (crypto.getRandomValues(new Uint32Array(1))[0] ?? 0) / 2 ** 32

export function wireHub(site: HubSite, deps: HubWiringDeps): WiredHub {
  const { clock, secrets, settingsStore, deviceKey, connection } = deps
  const keys = createClinicKeys(secrets)
  const hubStore = createIndexedDbHubStore(connection)
  const hubWith = (device: string, pass: () => ShownPass) =>
    createBrowserHub({ ...site, device, pass, clock, random: lot })
  const members = createEmitter<undefined>()
  let member: ClinicMember | undefined

  const setupDeps: ClinicSetupDeps = {
    ...{ site, clock, keys, secrets, settingsStore, deviceKey, sha256 },
    verify: verifySignature,
    crypto: createJoinCrypto(deps.slowKey),
    rights: createNatsRights({
      clock,
      dial: (pass, patience_ms) => dialBrowser(site, SYSTEM, () => pass, patience_ms),
    }),
    hubWith: (device, pass) => hubWith(device, () => pass),
    member: () => member,
    onMember: members.observe,
    newId: () => `D-${toHex(crypto.getRandomValues(new Uint8Array(DEVICE_ID_bytes)).buffer)}`,
    keyName: (publicKey) => sha256(publicKey).slice(0, 16),
    passEnds_ms: (jwt) => {
      const { until_s } = readPass(jwt) ?? {}
      return until_s === undefined ? undefined : until_s * 1000
    },
    ...createEntering({ ...deps, site, keys, hubStore }),
  }

  return {
    setup: createClinicSetup(setupDeps),
    stop: () => void member?.hub.stop(),
    open: async () => {
      const opened = await openMember({
        ...deps,
        ...{ clinic: site.clinic, hubStore, keys, sha256, verify: verifySignature, hubWith },
        turn: createWebTurn(navigator.locks, 'hub'),
      })
      if (opened.kind === 'open') {
        member = opened.member
        members.emit(undefined)
      }
      return opened
    },
  }
}
