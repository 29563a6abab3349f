import { createEmitter } from '../../../core/basics/emitter.ts'
import type { HubEntry } from '../../../core/hub/hubEntry.ts'
import type { Hub, HubState, KeyValue } from '../../../ports/hub.ts'
import { HubError } from '../../../ports/hubFault.ts'
import { within } from '../../../ports/patience.ts'
import { checkKey, checkName, checkPlace, checkSize } from '../checkAsked.ts'
import { inScope } from '../inScope.ts'
import type { MemoryJoining, MemoryServer } from './memoryServer.ts'
import { watchMemoryEntries, watchMemoryKeys } from './memoryWatch.ts'

const PATIENCE_ms = 2000

/** A clinic's hub in memory as one device sees it. */
export function createMemoryHub(server: MemoryServer, device: string, joining: MemoryJoining): Hub {
  const { clock } = server
  const states = createEmitter<HubState>()
  const cuts = createEmitter<HubError>()
  let state: HubState = { kind: 'off' }
  let ended: (() => void)[] = []

  const become = (next: HubState): void => {
    if (next.kind === state.kind) return
    state = next
    states.emit(next)
  }
  /** Looks whether the hub is there. A link that broke breaks whatever waits for an answer. */
  const look = (): void => {
    if (state.kind === 'off') return
    const since_ms = clock.read().wall_ms
    const why = server.refusal(device)
    if (server.isUp() && !why) return become({ kind: 'connected', since_ms })
    cuts.emit(new HubError('unreachable', 'The hub in memory is down'))
    become(why && server.isUp() ? { kind: 'refused', why, since_ms } : { kind: 'alone', since_ms })
  }

  const answered = async <T>(work: () => T | Promise<T>): Promise<T> => {
    await Promise.resolve()
    if (state.kind === 'off') throw new HubError('stopped', 'Not started')
    if (state.kind !== 'connected') throw new HubError('unreachable', 'No connection')
    if (server.isHanging()) return new Promise<never>(() => undefined)
    const outcome = await work()
    if (server.loses()) throw new HubError('unreachable', 'The answer was lost')
    return outcome
  }
  const call = <T>(work: () => T | Promise<T>): Promise<T> => {
    let stop = (): void => undefined
    const cut = new Promise<never>((_, reject) => (stop = cuts.observe(reject)))
    const late = () => new HubError('unreachable', 'No answer in time')
    const outcome = Promise.race([answered(work), cut])
    return within(clock, joining.patience_ms ?? PATIENCE_ms, outcome, late).finally(() => stop())
  }
  /** Like `call`, for a device that was let in. What is asked is looked at before anything is sent. */
  const asDevice = <T>(work: () => T, check: () => void): Promise<T> =>
    call(() => {
      if (joining.pass === 'joining') throw new HubError('refused', 'A joining pass')
      check()
      const outcome = work()
      server.changed()
      return outcome
    })
  const copyOf = <T extends HubEntry | KeyValue>(kept: T): T => ({
    ...kept,
    bytes: new Uint8Array(kept.bytes),
  })
  const watching = (end: () => void): (() => void) => {
    ended.push(end)
    return () => {
      end()
      ended = ended.filter((other) => other !== end)
    }
  }
  const link = { server, state: () => state, onState: states.observe }

  return {
    state: () => state,
    onState: states.observe,
    start() {
      if (state.kind !== 'off') return
      become({ kind: 'connecting' })
      ended.push(server.onChange(look))
      void Promise.resolve().then(look)
    },
    stop() {
      for (const end of ended.splice(0)) end()
      cuts.emit(new HubError('stopped', 'Stopped'))
      become({ kind: 'off' })
      return Promise.resolve()
    },
    append: (log, kind, bytes, behind) =>
      asDevice(
        () => {
          const outcome = server.append(device, log, kind, bytes, behind)
          return outcome.kind === 'stale' && outcome.next
            ? { kind: 'stale', next: copyOf(outcome.next) }
            : outcome
        },
        () => [checkName(log), checkSize(bytes), checkPlace(behind)],
      ),
    last: (log) =>
      asDevice(
        () =>
          server
            .entries()
            .filter((entry) => entry.log === log)
            .map(copyOf)
            .at(-1),
        () => checkName(log),
      ),
    read: (scope, after) =>
      asDevice(
        () =>
          server
            .entries()
            .filter((entry) => entry.sequence > after && inScope(scope, entry))
            .map(copyOf),
        () => [checkPlace(after), scope.log === undefined || checkName(scope.log)],
      ),
    watch: (scope, after, watcher) =>
      watching(
        watchMemoryEntries(link, scope, after, {
          ...watcher,
          entry: (entry, waiting_n) => watcher.entry(copyOf(entry), waiting_n),
        }),
      ),
    keys: {
      get: (key) =>
        asDevice(
          () => {
            const value = server.value(key)
            return value && copyOf(value)
          },
          () => checkKey(key),
        ),
      put: (key, bytes, revision) =>
        asDevice(
          () => server.put(key, bytes, revision),
          () => [checkKey(key), checkSize(bytes), checkPlace(revision)],
        ),
      watch: (first, onValue, onAll) =>
        watching(watchMemoryKeys(link, first, (value) => onValue(copyOf(value)), onAll)),
    },
    ask: (bytes) =>
      call(async () => {
        for (const answer of server.answers) {
          const said = await answer(new Uint8Array(checkSize(bytes)))
          if (said) return new Uint8Array(said)
        }
        throw new HubError('noAnswer', 'Nobody answers')
      }),
    onAsk(answer) {
      // Only who is connected hears a question.
      const heard = (bytes: Uint8Array) =>
        state.kind === 'connected' ? answer(bytes) : Promise.resolve(undefined)
      server.answers.add(heard)
      return watching(() => void server.answers.delete(heard))
    },
  }
}
