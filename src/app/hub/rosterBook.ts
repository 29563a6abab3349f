import { createEmitter } from '../../core/basics/emitter.ts'
import { readRoster, type RosterFault } from '../../core/hub/readRoster.ts'
import { devicesInUse, rosterText } from '../../core/hub/roster.ts'
import type { Roster, SignedRoster } from '../../core/hub/roster.ts'
import { signerOf, successionFault, type SuccessionFault } from '../../core/hub/rosterFollows.ts'
import { canonicalJson } from '../../core/log/canonicalJson.ts'
import type { Sign, VerifySignature } from '../../core/log/exportFile.ts'
import type { ClinicKeys } from '../../ports/clinicKeys.ts'
import type { Hub } from '../../ports/hub.ts'

/** Why an edition of the roster is not taken. */
export type RosterRefusal = RosterFault | SuccessionFault | 'badSignature' | 'keysNotForUs'

export interface RosterBook {
  readonly roster: () => Roster
  readonly signed: () => SignedRoster
  /** Follows the hub; returns a way to end it. */
  start(): () => void
  /** The last edition that was not taken, and why. */
  readonly refused: () => { readonly edition: number; readonly why: RosterRefusal } | undefined
  /**
   * Signs and publishes the next edition. Where another desk was first, the change is made again on what that one made;
   * `undefined` from `change` leaves all as it is.
   */
  publish(change: (roster: Roster) => Roster | undefined): Promise<void>
  readonly onChange: (observer: () => void) => () => void
}

export interface RosterBookDeps {
  readonly hub: Hub
  readonly device: string
  readonly keys: ClinicKeys
  readonly sign: Sign
  readonly verify: VerifySignature
  /** Keeps the edition on this device; the promise is waited for before it counts. */
  readonly keep: (signed: SignedRoster) => Promise<void>
}

const FIRST = 'site'
export const rosterKey = (edition: number): string => `${FIRST}/roster/${edition}`
const editionOf = (key: string): number | undefined => {
  const [first, what, edition, ...more] = key.split('/')
  const is =
    first === FIRST &&
    what === 'roster' &&
    more.length === 0 &&
    /^[1-9]\d{0,8}$/.test(edition ?? '')
  return is ? Number(edition) : undefined
}
/** So many desks do not publish at one time. */
const TRIES = 6

const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes)
export const bytesOfRoster = (signed: SignedRoster): Uint8Array =>
  new TextEncoder().encode(canonicalJson(signed))

/** Signs an edition, with the clinic's keys for each device in use. */
export async function signRoster(
  roster: Roster,
  by: string,
  { keys, sign }: Pick<RosterBookDeps, 'keys' | 'sign'>,
): Promise<SignedRoster> {
  const wrapped: [string, Awaited<ReturnType<ClinicKeys['wrapFor']>>][] = []
  for (const { id, sealingKey } of devicesInUse(roster)) {
    wrapped.push([id, await keys.wrapFor(sealingKey)])
  }
  const unsigned = { roster, keys: Object.fromEntries(wrapped), by }
  return { ...unsigned, signature: await sign(rosterText(unsigned)) }
}

/** The roster as this device knows it, edition after edition, each signed by a desk of the one before. */
export function createRosterBook(known: SignedRoster, deps: RosterBookDeps): RosterBook {
  const { hub, device, keys, sign, verify, keep } = deps
  const changes = createEmitter<void>()
  let signed = known
  let refused: { readonly edition: number; readonly why: RosterRefusal } | undefined
  /** What the hub gave and cannot be taken yet, by edition. */
  const waiting = new Map<number, Uint8Array>()
  let turn: Promise<void> = Promise.resolve()

  async function faultOf(next: SignedRoster): Promise<RosterRefusal | undefined> {
    const fault = successionFault(signed.roster, next)
    if (fault) return fault
    const desk = signerOf(signed.roster, next)
    const isSigned = desk && (await verify(desk.signingKey, rosterText(next), next.signature))
    if (!isSigned) return 'badSignature'
    return takeKeys(next)
  }
  /** A device that was cut off gets no keys, and still takes the edition that says so. */
  async function takeKeys(next: SignedRoster): Promise<RosterRefusal | undefined> {
    const mine = Object.hasOwn(next.keys, device) ? next.keys[device] : undefined
    if (!mine) return undefined
    const names = await keys.accept(mine)
    if (!names.includes(next.roster.key)) return 'keysNotForUs'
    await keys.use(next.roster.key)
    return undefined
  }
  async function take(bytes: Uint8Array): Promise<void> {
    const edition = signed.roster.edition + 1
    const read = readRoster(textOf(bytes))
    const why = read.ok ? await faultOf(read.value) : read.faults[0]
    if (!read.ok || why) {
      refused = { edition, why: why ?? 'shape' }
      changes.emit()
      return
    }
    await keep(read.value)
    signed = read.value
    refused = undefined
    changes.emit()
  }
  /** Takes in turn whatever follows; what fails for want of the disk or the lock is tried at the next call. */
  const takeWaiting = (): Promise<void> => {
    turn = turn
      .then(async () => {
        for (;;) {
          const edition = signed.roster.edition + 1
          const bytes = waiting.get(edition)
          if (!bytes) return
          await take(bytes)
          if (signed.roster.edition < edition) return
          waiting.delete(edition)
        }
      })
      .catch(() => undefined)
    return turn
  }
  const heard = (key: string, bytes: Uint8Array): Promise<void> => {
    const edition = editionOf(key)
    if (edition === undefined || edition <= signed.roster.edition) return turn
    waiting.set(edition, bytes)
    return takeWaiting()
  }

  return {
    roster: () => signed.roster,
    signed: () => signed,
    refused: () => refused,
    start: () => {
      const stops = [
        hub.keys.watch(FIRST, ({ key, bytes }) => void heard(key, bytes)),
        // A lock that was opened lets in what could not be kept before.
        keys.onChange(() => void (waiting.size > 0 && takeWaiting())),
      ]
      return () => stops.forEach((stop) => stop())
    },
    async publish(change) {
      for (let tries = 0; tries < TRIES; tries++) {
        await turn
        const wanted = change(signed.roster)
        if (!wanted) return
        const next = { ...wanted, edition: signed.roster.edition + 1 }
        const bytes = bytesOfRoster(await signRoster(next, device, { keys, sign }))
        const key = rosterKey(next.edition)
        const put = await hub.keys.put(key, bytes, 0)
        const there = put.kind === 'stored' ? bytes : (put.now?.bytes ?? bytes)
        await heard(key, there)
        if (signed.roster.edition < next.edition) {
          throw new Error(`The edition ${next.edition} at the hub does not follow: ${refused?.why}`)
        }
        if (put.kind === 'stored' || isOurs(there, bytes)) return
      }
      throw new Error('Other desks change the roster all the time.')
    },
    onChange: changes.observe,
  }
}

const isOurs = (there: Uint8Array, ours: Uint8Array): boolean => textOf(there) === textOf(ours)
