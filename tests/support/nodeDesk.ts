import { createClinicKeys } from '../../src/adapters/crypto/clinicKeys.ts'
import { createJoinCrypto } from '../../src/adapters/crypto/joinCrypto.ts'
import { createMemorySecretRows } from '../../src/adapters/crypto/secretRows.ts'
import { createSecretStore } from '../../src/adapters/crypto/secretStore.ts'
import { slowKeyNow } from '../../src/adapters/crypto/slowKey.ts'
import { verifySignature } from '../../src/adapters/crypto/verifySignature.ts'
import { createNatsRights } from '../../src/adapters/hub/nats/natsRights.ts'
import { createSystemClock } from '../../src/adapters/time/systemClock.ts'
import {
  createDeskActs,
  foundClinic,
  publishFirst,
  type DeskActs,
} from '../../src/app/hub/deskActs.ts'
import { createEnvelopes, type Envelopes } from '../../src/app/hub/envelopes.ts'
import { createDeskJoin } from '../../src/app/hub/join/deskJoin.ts'
import { createRosterBook, type RosterBook } from '../../src/app/hub/rosterBook.ts'
import type { DeskSigner } from '../../src/app/hub/setup/deskValues.ts'
import { deviceOf, verdictOf } from '../../src/core/hub/roster.ts'
import type { Sign } from '../../src/core/log/exportFile.ts'
import type { Hub } from '../../src/ports/hub.ts'
import type { HubRights } from '../../src/ports/hubRights.ts'
import clinic from '../../src/data/en/clinic.json' with { type: 'json' }
import { CLOSED_CLINIC, type ClosedHub } from './closedHub.ts'
import type { Tablet } from './e2eClinic.ts'
import { toClinic } from './e2eHubDay.ts'
import { connected } from './hubRig.ts'
import { nodeDeviceKey } from './nodeSigning.ts'
import { quickVault } from './vaults.ts'

const DEVICE = 'D-desk'
const YEAR_s = 365 * 86_400
const LOOK_ms = 50
const PATIENCE_ms = 240_000

/** The first desk of a clinic without a page: with the real keys, passes and signatures, and a person who says yes. */
export interface NodeDesk {
  readonly hub: Hub
  readonly book: RosterBook
  readonly acts: DeskActs
  readonly signer: DeskSigner
  readonly envelopes: Envelopes
  readonly sign: Sign
  /** Lets a tablet in by the code; resolves to its id when its page is loaded anew. */
  letIn(tablet: Pick<Tablet, 'page' | 'name'>): Promise<string>
  end(): Promise<void>
}

/** Looks until something is so. @throws Error when it never is */
async function until<T>(what: string, look: () => T | undefined): Promise<T> {
  const end_ms = Date.now() + PATIENCE_ms
  for (;;) {
    const found = look()
    if (found !== undefined) return found
    if (Date.now() > end_ms) throw new Error(`Not in time: ${what}`)
    await new Promise((resolve) => setTimeout(resolve, LOOK_ms))
  }
}

export interface NodeDeskSetting {
  /** What people call the desk. */
  readonly name?: string
  /** So long a pass counts, looked at for each. */
  readonly life_s?: () => number
}

export async function nodeDesk(
  closed: ClosedHub,
  { name = 'Desk', life_s = () => YEAR_s }: NodeDeskSetting = {},
): Promise<NodeDesk> {
  const clock = createSystemClock('node desk')
  const keys = createClinicKeys(createSecretStore(createMemorySecretRows(), quickVault()))
  const key = nodeDeviceKey()
  const sign: Sign = (text) => key.sign(text)
  const { publicKey: signingKey } = await key.identity()
  const dial = (pass: Parameters<typeof closed.open>[1]) => closed.open('system', pass)
  const rights: HubRights = {
    ...createNatsRights({ clock, dial }),
    sign: (...asked) => createNatsRights({ clock, dial, life_s: life_s() }).sign(...asked),
  }
  const { deskFile } = closed
  const first = { clinic: CLOSED_CLINIC, deskFile, name, device: DEVICE, signingKey }
  const membership = await foundClinic({ ...first, now_ms: Date.now() }, { keys, rights, sign })
  const hub = await connected(closed.hub(DEVICE, membership.pass))
  if (!(await publishFirst(hub, membership))) throw new Error('It was founded before.')
  const common = { hub, device: DEVICE, keys }
  const book = createRosterBook(membership.roster, {
    ...{ ...common, sign, verify: verifySignature, keep: () => Promise.resolve() },
  })
  const stop = book.start()
  let ids = 0
  const acts = createDeskActs({
    ...{ ...common, book, rights, deskFile: () => Promise.resolve(deskFile) },
    newId: () => `D-${(ids += 1)}`,
  })
  const join = createDeskJoin({
    ...{ hub, clock, acts, clinic: CLOSED_CLINIC },
    crypto: createJoinCrypto((pin, parameters) => Promise.resolve(slowKeyNow(pin, parameters))),
    deskKey: () => keys.identity(),
    keyName: (publicKey) => publicKey.slice(-8),
  })
  return {
    ...{ hub, book, acts, sign },
    signer: { hub, clinic: CLOSED_CLINIC, device: DEVICE, sign },
    envelopes: createEnvelopes({
      ...{ device: DEVICE, sealer: keys, sign, verify: verifySignature },
      trust: {
        verdict: (device, at_ms) => verdictOf(book.roster(), device, at_ms),
        signingKey: (device) => deviceOf(book.roster(), device)?.signingKey,
        nameOf: (device) => deviceOf(book.roster(), device)?.name,
      },
    }),
    async letIn({ page, name: called }) {
      const texts = clinic.setup.join
      await toClinic(page)
      join.invite()
      const code = await until('a code', () => join.view()?.code)
      await page.getByLabel(texts.name).first().fill(called)
      await page.getByLabel(texts.code).fill(code)
      const loaded = page.waitForEvent('load', { timeout: PATIENCE_ms })
      await page.getByRole('button', { name: texts.submit, exact: true }).click()
      await until(`${called} asks`, () => (join.view()?.asking?.name === called ? true : undefined))
      await join.admit()
      await loaded
      const { devices } = book.roster()
      return devices.find((device) => device.name === called)?.id ?? ''
    },
    async end() {
      stop()
      await hub.stop()
    },
  }
}
