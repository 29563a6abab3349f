import { createEmitter } from '../../core/basics/emitter.ts'
import { drawLogName, readLogName } from '../../core/hub/logNames.ts'
import { createReplica, writerOf } from '../../core/hub/replica.ts'
import { NO_PREVIOUS } from '../../core/log/seal.ts'
import type { LogEntry } from '../../core/protocol/entry.ts'
import type { Hub } from '../../ports/hub.ts'
import type { HubStore } from '../../ports/hubStore.ts'
import { storageFaultOf } from '../../ports/storageFault.ts'
import type { Turn } from '../../ports/turn.ts'
import { claimAtHub } from './claims.ts'
import type { Clinic, ClinicView, KeptAside, NotTaken, OtherDraw, TakenOver } from './clinic.ts'
import { createEnvelopes, lastAtHub, type EnvelopeDeps } from './envelopes.ts'
import { createOthersRecords } from './othersRecords.ts'
import { createOwnLogs, type OwnLogsDeps } from './ownLogs.ts'
import { createReceiver, type ReceiverDeps } from './receiver.ts'
import { createSender } from './sender.ts'

export interface ClinicDeps extends EnvelopeDeps, Omit<OwnLogsDeps, 'device'> {
  readonly hub: Hub
  readonly hubStore: HubStore
  readonly sha256: ReceiverDeps['sha256']
  /** Of several pages of this device one sends. */
  readonly turn: Turn
  /** Tells whenever keys came or the roster changed; returns a way to end it. */
  readonly onTrustChange: (observer: () => void) => () => void
}

/** Joins what this device sends to the clinic's hub, what it takes from there, and what the rest of the app asks. */
export function createClinic(deps: ClinicDeps): Clinic {
  const { hub, hubStore: store, device, trust, sha256, clock, logStore } = deps
  const changes = createEmitter<undefined>()
  const envelopes = createEnvelopes(deps)
  const nameOf = (id: string): string | undefined => trust.nameOf(id)
  const isHere = (id: string): boolean => trust.verdict(id, clock.read().wall_ms) === 'trusted'
  const others = createOthersRecords(device, nameOf, isHere, sha256)
  const tell = (): void => changes.emit(undefined)
  let isRead = false

  const receiver = createReceiver({
    hub,
    store,
    envelopes,
    sha256,
    clock,
    onChange: (logs) => {
      const replica = receiver.replica()
      others.notice([...logs].flatMap((log) => replica.log(log) ?? []))
      tell()
    },
  })
  const sender = createSender({
    hub,
    store,
    envelopes,
    sha256,
    clock,
    turn: deps.turn,
    own: createOwnLogs(deps),
    handsOf: (log) => receiver.replica().log(log)?.hands ?? [],
    onChange: tell,
  })

  function aside(): readonly KeptAside[] {
    return sender.asides().flatMap(({ log, from_seq, writer, entries }) => {
      const of = readLogName(log)
      if (of?.kind !== 'draw') return []
      const name = writer === undefined ? '' : (nameOf(writer) ?? writer)
      return [{ drawId: of.drawId, from_seq, entries_n: entries.length, entries, writer: name }]
    })
  }

  function notTaken(): readonly NotTaken[] {
    const replica = receiver.replica()
    const found = new Map<string, NotTaken>()
    for (const each of replica.asides()) {
      // Of what began before it was kept here the beginning is missing: nobody has done anything wrong.
      const isMiddle = each.why === 'brokenChain' && !replica.log(each.log)?.entries.length
      if (isMiddle || each.device === device) continue
      const key = `${each.device} ${each.why}`
      const entries_n = (found.get(key)?.entries_n ?? 0) + 1
      found.set(key, { device: nameOf(each.device) ?? each.device, why: each.why, entries_n })
    }
    return [...found.values()]
  }

  function view(): ClinicView | undefined {
    const state = hub.state()
    if (state.kind === 'off') return undefined
    const [coming_n, waiting_n] = [receiver.waiting_n(), sender.waiting_n()]
    const head = {
      since_ms: 'since_ms' in state ? state.since_ms : clock.read().wall_ms,
      coming_n: state.kind === 'connected' ? (coming_n ?? 0) : 0,
      waiting_n: waiting_n ?? 0,
      ...(!deps.turn.isOurs() && { isSentElsewhere: true as const }),
      aside: aside(),
      notTaken: notTaken(),
      faults: [...new Set(sender.troubles().values())],
    }
    if (state.kind === 'refused') return { ...head, link: 'refused', why: state.why }
    // That everything is there is said once it is known.
    const isUnknown = coming_n === undefined || waiting_n === undefined
    const isEarly = state.kind === 'connected' && isUnknown
    return { ...head, link: isEarly ? 'connecting' : state.kind }
  }

  /** Reads the log as the hub has it now, so that nobody goes on from an older end. */
  async function takeOver(drawId: string): Promise<TakenOver> {
    const log = drawLogName(drawId)
    if (hub.state().kind !== 'connected') return { kind: 'refused', why: 'alone' }
    try {
      const replica = createReplica(sha256)
      for (const entry of await hub.read({ log }, 0)) replica.add(await envelopes.open(entry))
      const there = replica.log(log)
      const held = receiver.replica().log(log)
      const isWhole = there && there.entries.length >= (held?.entries.length ?? 0)
      // What a device still sent after it was cut off is no part of any record: the draw can be rescued from it.
      const late_n = replica.asides().filter(({ why }) => why === 'revoked').length
      if (!isWhole || replica.setAside_n() > late_n) return { kind: 'refused', why: 'notWhole' }
      others.notice([there])
      const checked = others.load(drawId)
      const writer = writerOf(there)
      if (writer === undefined || (writer !== device && (!checked || checked.fault))) {
        return { kind: 'refused', why: 'notWhole' }
      }
      const entries = there.entries.map(({ raw }) => raw as LogEntry)
      if (writer !== device) {
        // Written here first: what the hub then says is sent behind entries that are safely here.
        await logStore.append(drawId, entries)
        const { seq, hash } = there.entries.at(-1) ?? { seq: 0, hash: NO_PREVIOUS }
        const said = { type: 'writer', at_ms: clock.read().wall_ms }
        const bytes = await envelopes.close('writer', log, { seq, hash }, said)
        const answer = await hub.append(log, 'writer', bytes, there.sequence)
        const next = answer.kind === 'stale' ? lastAtHub(answer.next) : undefined
        if (answer.kind === 'stale' && next?.device !== device) {
          const by = next && (nameOf(next.device) ?? next.device)
          return { kind: 'refused', why: 'elsewhere', ...(by !== undefined && { by }) }
        }
        await sender.noteTaken(log)
      }
      return {
        kind: 'taken',
        entries,
        from: nameOf(writer) ?? writer,
        to: nameOf(device) ?? device,
      }
    } catch (error) {
      const isOurs = storageFaultOf(error) === 'movedOn'
      return { kind: 'refused', why: isOurs ? 'ownAside' : 'unknown' }
    }
  }

  /** Draws of this device whose number another device gave as well: what stands at the hub is another draw. */
  const namesakes = (): ReadonlySet<string> =>
    new Set(
      sender.asides().flatMap(({ log, from_seq }) => {
        const of = from_seq === 1 ? readLogName(log) : undefined
        return of?.kind === 'draw' ? [of.drawId] : []
      }),
    )

  /** An old copy of the hub may have let the device that took it over bring all of it, as if it had begun it. */
  const withoutOwnBeginning = (draw: OtherDraw): OtherDraw => {
    if (draw.begunBy === undefined || sender.has(drawLogName(draw.drawId)) === false) return draw
    const { begunBy: _ours, ...rest } = draw
    return rest
  }

  return {
    start: async () => {
      hub.onState(tell)
      deps.onTrustChange(() => void receiver.openAgain().then(() => sender.lookSoon()))
      await receiver.start()
      isRead = true
      tell()
      await sender.start()
      hub.start()
    },
    view,
    isRead: () => isRead,
    dayEntries: others.dayEntries,
    draws: () => {
      const ours = namesakes()
      return others
        .draws()
        .filter(({ drawId }) => !ours.has(drawId))
        .map(withoutOwnBeginning)
    },
    load: (drawId) => (namesakes().has(drawId) ? undefined : others.load(drawId)),
    claim: (what) => claimAtHub({ hub, device, nameOf }, what),
    takeOver,
    wrote: sender.lookSoon,
    erased: (drawId) => receiver.forgetLog(drawLogName(drawId)),
    forget: () => {
      isRead = false
      others.clear()
      void receiver.openAgain()
    },
    remember: () =>
      void receiver.openAgain().then(() => {
        isRead = true
        tell()
        sender.lookSoon()
      }),
    onChange: changes.observe,
  }
}
