import { joinClinic } from '../join/joinClinic.ts'
import type { ClinicSetupDeps } from './clinicSetup.ts'
import type { SetupTold } from './clinicSetupView.ts'
import { untilConnected } from './untilConnected.ts'

/** The name in every joining pass: answers to those who ask come under it. */
const JOINING = 'joining'

export interface Joining {
  /** Rejects with the error of the disk where what was given cannot be kept. */
  join(name: string, code: string): Promise<SetupTold | undefined>
  stop(): void
  readonly step: () => 'asking' | 'waiting' | undefined
}

/** Joins the site's clinic by a code that one of its desks shows. */
export function createJoining(deps: ClinicSetupDeps, tell: () => void): Joining {
  const { site, clock, crypto, keys, rights, deviceKey, verify, hubWith, enter } = deps
  let step: ReturnType<Joining['step']>
  let attempt = 0
  const at = (next: typeof step): void => {
    step = next
    tell()
  }

  return {
    step: () => step,
    stop: () => void (attempt += 1),
    async join(name, code) {
      const mine = (attempt += 1)
      const isStopped = (): boolean => mine !== attempt
      const hub = hubWith(JOINING, { jwt: site.joiningJwt })
      at('asking')
      try {
        const isThere = await untilConnected(hub, clock).then(
          () => true,
          () => false,
        )
        if (!isThere) return { kind: 'joinRefused', why: 'noHub' }
        const joined = await joinClinic(code, name, {
          ...{ hub, clinic: site.clinic, clock, crypto, keys, rights, verify, isStopped },
          signingKey: async () => (await deviceKey.identity()).publicKey,
          onWaiting: () => at('waiting'),
          ...(deps.poll_ms !== undefined && { poll_ms: deps.poll_ms }),
        })
        if (joined.kind === 'refused') {
          const { why, tries } = joined
          // The person knows.
          if (why === 'stopped') return undefined
          return { kind: 'joinRefused', why, ...(tries !== undefined && { tries }) }
        }
        await enter(joined.membership)
        return undefined
      } finally {
        at(undefined)
        await hub.stop()
      }
    },
  }
}
