import type { DrawLog, LogEntry, Source, UnsealedEntry } from '../../core/protocol/entry.ts'
import { NO_PREVIOUS, sealEntry, type Sha256 } from '../../core/log/seal.ts'
import type { Command } from '../../core/protocol/commands.ts'
import { decide } from '../../core/protocol/decide.ts'
import type { Decision } from '../../core/protocol/decision.ts'
import { dueCues } from '../../core/protocol/dueCues.ts'
import type { DrawEvent, DrawOpened } from '../../core/protocol/events.ts'
import { evolve, replay } from '../../core/protocol/evolve.ts'
import { NO_DRAW, type DrawState } from '../../core/protocol/state.ts'
import { stampAfter } from '../../core/time/stamp.ts'
import type { Clock } from '../../ports/clock.ts'
import type { LogStore } from '../../ports/logStore.ts'
import { errorText } from '../../core/basics/errorText.ts'

export interface DrawSessionDeps {
  readonly clock: Clock
  readonly store: LogStore
  readonly sha256: Sha256
  /** Called after the log has taken the entries, never before. */
  readonly onChange: (before: DrawState, after: DrawState, entries: readonly LogEntry[]) => void
  /** Saving failed, or works again (`undefined`). The entries are kept and tried again with the next. */
  readonly onUnsaved: (message: string | undefined) => void
}

/** One open draw: takes commands one after another, keeps the log, gives its cues. */
export interface DrawSession {
  state(): DrawState
  log(): DrawLog
  open(event: DrawOpened): Promise<void>
  dispatch(
    command: Command,
    source: Source,
    transcript?: string,
    confirmed?: boolean,
  ): Promise<Decision>
  /** Gives every cue that is due; to be called near the time of the next one. */
  giveDueCues(): Promise<void>
}

/** Starts on an empty log, or on a stored one after a reload. */
export function createDrawSession(deps: DrawSessionDeps, stored?: DrawLog): DrawSession {
  const entries: LogEntry[] = [...(stored?.entries ?? [])]
  let state: DrawState = stored ? replay(stored.entries) : NO_DRAW
  let unsaved: LogEntry[] = []
  let turn: Promise<unknown> = Promise.resolve()

  /** Commands wait for each other, so that each is decided on what the one before it left. */
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const next = turn.then(work)
    turn = next.catch(() => undefined)
    return next
  }

  const drawId = (): string => state.opened?.drawId ?? stored?.drawId ?? ''

  async function write(
    events: readonly DrawEvent[],
    source: Source,
    transcript?: string,
  ): Promise<void> {
    const before = state
    const at = stampAfter(state.last?.at, deps.clock.read())
    const added: LogEntry[] = []
    for (const event of events) {
      const last = added.at(-1) ?? entries.at(-1)
      const by = event.type === 'drawOpened' ? event.collector.id : (state.collector?.id ?? '')
      const entry: UnsealedEntry = {
        seq: (last?.seq ?? 0) + 1,
        at,
        by,
        source,
        ...(transcript === undefined ? {} : { heard: transcript }),
        event,
      }
      added.push(sealEntry(entry, last?.hash ?? NO_PREVIOUS, deps.sha256))
    }
    const after = added.reduce(evolve, state)
    await save(after.opened?.drawId ?? drawId(), added)
    entries.push(...added)
    state = after
    deps.onChange(before, after, added)
  }

  /** A failing disk must not stop a draw: what could not be written is kept here and written with the next entry. */
  async function save(id: string, added: readonly LogEntry[]): Promise<void> {
    const all = [...unsaved, ...added]
    try {
      await deps.store.append(id, all)
      if (unsaved.length > 0) deps.onUnsaved(undefined)
      unsaved = []
    } catch (error) {
      unsaved = all
      deps.onUnsaved(errorText(error))
    }
  }

  async function dispatchNow(
    command: Command,
    source: Source,
    transcript?: string,
    confirmed?: boolean,
  ): Promise<Decision> {
    const now = stampAfter(state.last?.at, deps.clock.read())
    const decision = decide(state, command, now, confirmed)
    if (decision.kind === 'record' && decision.events.length > 0) {
      await write(decision.events, source, transcript)
    }
    return decision
  }

  return {
    state: () => state,
    log: () => ({ format: 'stillhand-log', version: 1, drawId: drawId(), entries }),
    open: (event) => inTurn(() => write([event], 'app')),
    dispatch: (command, source, transcript, confirmed) =>
      inTurn(() => dispatchNow(command, source, transcript, confirmed)),
    giveDueCues: () =>
      inTurn(async () => {
        for (const due of dueCues(state, deps.clock.read())) {
          await dispatchNow({ type: 'giveCue', ...due }, 'clock')
        }
      }),
  }
}
