import { createTurns } from '../../core/basics/turns.ts'
import { createEmitter } from '../../core/basics/emitter.ts'
import { createSeal, type Sha256 } from '../../core/log/seal.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { Decision } from '../../core/protocol/decision.ts'
import { dueCues } from '../../core/protocol/dueCues.ts'
import type { DrawLog, LogEntry, Source } from '../../core/protocol/entry.ts'
import type { DrawOpened } from '../../core/protocol/events.ts'
import { replay } from '../../core/protocol/evolve.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { openDraw, transition } from '../../core/protocol/transition.ts'
import type { Clock } from '../../ports/clock.ts'
import type { DrawLogs } from './drawLogs.ts'
import type { LogWriter } from './logWriter.ts'

export interface DrawSessionDeps {
  readonly clock: Clock
  readonly logs: DrawLogs
  readonly sha256: Sha256
}

/** What changed, and the entries that say so; none where only others wrote. */
export interface DrawChange {
  readonly before: DrawState
  readonly after: DrawState
  readonly entries: readonly LogEntry[]
  /** So many entries another page has written meanwhile; ours go on behind them. */
  readonly foreign: number
}

/** One open draw: takes commands one after another, keeps the log, gives its cues. */
export interface DrawSession {
  state(): DrawState
  log(): DrawLog
  dispatch(
    command: Command,
    source: Source,
    transcript?: string,
    confirmed?: boolean,
    held?: true,
  ): Promise<Decision>
  /** Gives every cue that is due; to be called near the time of the next one. */
  giveDueCues(): Promise<void>
  /**
   * Told after the log has taken the entries, or once the disk has kept the draw waiting as long as it may.
   * Returns a way to end it.
   */
  onChange(observer: (change: DrawChange) => void): () => void
  /** Tells nothing any more. What is not stored yet is still written. */
  stop(): void
}

/** Opens a draw: resolves once its first entry is in the log, or the disk has kept it waiting as long as it may. */
export async function openDrawSession(
  deps: DrawSessionDeps,
  opening: DrawOpened,
): Promise<DrawSession> {
  const { entry } = openDraw(opening, deps.clock.read(), createSeal(deps.sha256))
  const writer = deps.logs.begin(opening.drawId)
  await writer.write([entry])
  return sessionOn(deps, writer)
}

/**
 * Goes on with a draw that is in the log.
 * @throws RangeError when the log does not open a draw.
 */
export function resumeDrawSession(deps: DrawSessionDeps, stored: DrawLog): DrawSession {
  return sessionOn(deps, deps.logs.goOn(stored))
}

function sessionOn(deps: DrawSessionDeps, writer: LogWriter): DrawSession {
  const seal = createSeal(deps.sha256)
  const changes = createEmitter<DrawChange>()
  let state = replay(writer.log().entries)
  let mends = 0
  let foreign = 0
  let isWriting = false
  /** Commands wait for each other, so that each is decided on what the one before it left. */
  const inTurn = createTurns()

  function tell(before: DrawState, entries: readonly LogEntry[]): void {
    const change = { before, after: state, entries, foreign }
    foreign = 0
    changes.emit(change)
  }

  /** When others were first, the state is told anew from all that stands in the log. */
  const stopFollowing = writer.onMended((mended) => {
    const before = state
    mends++
    foreign += mended.foreign
    state = replay(mended.entries)
    if (!isWriting) tell(before, [])
  })

  /** An addendum may have been written into the same log by a session of its own. */
  function catchUp(): DrawState {
    const { entries } = writer.log()
    if (entries.at(-1)?.hash !== state.last.hash) state = replay(entries)
    return state
  }

  async function dispatchNow(
    command: Command,
    source: Source,
    transcript?: string,
    confirmed?: boolean,
    held?: true,
  ): Promise<Decision> {
    const before = catchUp()
    const incoming = { now: deps.clock.read(), source, transcript, confirmed, held }
    const next = transition(before, command, incoming, seal)
    if (next.entries.length > 0) {
      const mendsBefore = mends
      isWriting = true
      await writer.write(next.entries)
      isWriting = false
      if (mends === mendsBefore) state = next.state
      tell(before, next.entries)
    }
    return next.decision
  }

  return {
    state: () => state,
    log: () => writer.log(),
    dispatch: (command, source, transcript, confirmed, held) =>
      inTurn(() => dispatchNow(command, source, transcript, confirmed, held)),
    giveDueCues: () =>
      inTurn(async () => {
        for (const due of dueCues(state, deps.clock.read())) {
          await dispatchNow({ type: 'giveCue', ...due }, 'clock')
        }
      }),
    onChange: (observer) => changes.observe(observer),
    stop: () => stopFollowing(),
  }
}
