import { errors, type NatsConnection } from '@nats-io/nats-core'
import { isRecord } from '../../../core/basics/isRecord.ts'
import { isHubName } from '../../../core/hub/hubNames.ts'
import type { Clock } from '../../../ports/clock.ts'
import { HubError } from '../../../ports/hubFault.ts'
import type { HubRights } from '../../../ports/hubRights.ts'
import type { HubPass } from './browserHub.ts'
import { cutOff, type CutOffKit } from './cutOff.ts'
import { newDeviceKey, signPass, type SigningKit } from './passes.ts'

/** What `npm run hub:keys` makes for a desk, as far as it is needed for others' passes. */
interface DeskFile {
  readonly clinic: string
  readonly signing: SigningKit
  readonly cutOff: CutOffKit & { readonly system: HubPass }
}

export interface NatsRightsDeps {
  readonly clock: Clock
  /** Connects with the pass of the server's own account, for the moment in which an account is changed. */
  readonly dial: (pass: HubPass, patience_ms: number) => Promise<NatsConnection>
  readonly patience_ms?: number
  /** So long a device's pass counts. */
  readonly life_s?: number
}

const PATIENCE_ms = 8000
const YEAR_s = 365 * 86_400

/** Passes of a clinic behind a nats-server, signed with what stands in its desk file. */
export function createNatsRights(deps: NatsRightsDeps): HubRights {
  const { clock, dial, patience_ms = PATIENCE_ms, life_s = YEAR_s } = deps
  const now_s = (): number => Math.floor(clock.read().wall_ms / 1000)
  return {
    newPass: () => {
      const { publicKey, seed } = newDeviceKey()
      return Promise.resolve({ passKey: publicKey, seed })
    },
    sign: (desk, { device, passKey, isDesk }) =>
      signPass(deskFileOf(desk).signing, {
        role: isDesk ? 'desk' : 'device',
        name: device,
        publicKey: passKey,
        until_s: now_s() + life_s,
      }),
    cutOff: async (desk, passKeys) => {
      const { cutOff: kit } = deskFileOf(desk)
      try {
        const connection = await dial(kit.system, patience_ms)
        try {
          // A clock that is behind the server's must not leave a pass that was signed meanwhile.
          await cutOff(connection, kit, passKeys, now_s() + life_s, patience_ms)
        } finally {
          await connection.close()
        }
      } catch (error) {
        if (error instanceof HubError) throw error
        const isRefused = error instanceof errors.AuthorizationError
        throw new HubError(isRefused ? 'refused' : 'unreachable', 'The hub changed nothing', error)
      }
    },
    clinicOf: (desk) => {
      try {
        return deskFileOf(desk).clinic
      } catch {
        return undefined
      }
    },
  }
}

/** @throws Error for a text that is no desk file */
function deskFileOf(text: string): DeskFile {
  const file: unknown = JSON.parse(text)
  const { clinic, signing, cutOff: kit } = isRecord(file) ? file : {}
  const isFile =
    typeof clinic === 'string' &&
    isHubName(clinic) &&
    isRecord(signing) &&
    signing.clinic === clinic &&
    hasTexts(signing, ['account', 'signingSeed']) &&
    isRecord(kit) &&
    kit.account === signing.account &&
    hasTexts(kit, ['account', 'operatorSeed']) &&
    isRecord(kit.system) &&
    hasTexts(kit.system, ['jwt', 'seed'])
  if (!isFile) throw new Error('This is no desk file of a clinic.')
  return file as DeskFile
}

const hasTexts = (value: Readonly<Record<string, unknown>>, fields: readonly string[]): boolean =>
  fields.every((field) => typeof value[field] === 'string')
