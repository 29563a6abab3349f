import type { DrawLog, LogEntry, Source, UnsealedEntry } from '../../core/protocol/entry.ts'
import { LOG_FORMAT, LOG_VERSION } from '../../core/log/checkLog.ts'
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
import type { DrawLogs } from './drawLogs.ts'
import type { LogWriter } from './logWriter.ts'

export interface DrawSessionDeps {
  readonly clock: Clock
  readonly logs: DrawLogs
  readonly sha256: Sha256
  /**
   * Called after the log has taken the entries, or once the disk has kept the draw waiting as long as it may. Without
   * entries when the draw changed because another page had written into it.
   */
  readonly onChange: (before: DrawState, after: DrawState, entries: readonly LogEntry[]) => void
  /** Another page has written so many entries; ours go on behind them. */
  readonly onForeign: (count: number) => void
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
  /** Tells nothing any more. What is not stored yet is still written. */
  stop(): void
}

/** Starts on an empty log, or on a stored one after a reload. */
export function createDrawSession(deps: DrawSessionDeps, stored?: DrawLog): DrawSession {
  let writer: LogWriter | undefined = stored && deps.logs.goOn(stored)
  let stopFollowing = writer && follow(writer)
  let state: DrawState = writer ? replay(writer.log().entries) : NO_DRAW
  let mends = 0
  let isWriting = false
  let turn: Promise<unknown> = Promise.resolve()

  /** Commands wait for each other, so that each is decided on what the one before it left. */
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const next = turn.then(work)
    turn = next.catch(() => undefined)
    return next
  }

  /** When others were first, the state is told anew from all that stands in the log. */
  function follow(log: LogWriter): () => void {
    return log.onMended(({ entries, foreign }) => {
      const before = state
      mends++
      state = replay(entries)
      deps.onForeign(foreign)
      if (!isWriting) deps.onChange(before, state, [])
    })
  }

  function begin(drawId: string): LogWriter {
    const begun = deps.logs.begin(drawId)
    stopFollowing = follow(begun)
    return (writer = begun)
  }

  async function write(
    events: readonly DrawEvent[],
    source: Source,
    transcript?: string,
  ): Promise<void> {
    const before = state
    const logged = writer?.log().entries.at(-1)
    const at = stampAfter(logged?.at, deps.clock.read())
    const added: LogEntry[] = []
    for (const event of events) {
      const last = added.at(-1) ?? logged
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
    const mendsBefore = mends
    isWriting = true
    await (writer ?? begin(after.opened?.drawId ?? '')).write(added)
    isWriting = false
    if (mends === mendsBefore) state = after
    deps.onChange(before, state, added)
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
    log: () =>
      writer?.log() ?? { format: LOG_FORMAT, version: LOG_VERSION, drawId: '', entries: [] },
    open: (event) => inTurn(() => write([event], 'app')),
    dispatch: (command, source, transcript, confirmed) =>
      inTurn(() => dispatchNow(command, source, transcript, confirmed)),
    giveDueCues: () =>
      inTurn(async () => {
        for (const due of dueCues(state, deps.clock.read())) {
          await dispatchNow({ type: 'giveCue', ...due }, 'clock')
        }
      }),
    stop: () => stopFollowing?.(),
  }
}
