import type { LogEntry, Source } from '../protocol/entry.ts'
import { createSeal, type Sha256 } from '../log/seal.ts'
import type { Command } from '../protocol/commands.ts'
import type { Decision } from '../protocol/decision.ts'
import { dueCues, nextCueIn_ms } from '../protocol/dueCues.ts'
import type { DrawOpened } from '../protocol/events.ts'
import { replay } from '../protocol/evolve.ts'
import type { DrawState } from '../protocol/state.ts'
import { openDraw, transition } from '../protocol/transition.ts'
import type { Reading } from '../time/stamp.ts'

/** A draw under a clock that only moves when told to: for scenarios, rehearsal and tests. */
export interface SimulatedDraw {
  state(): DrawState
  log(): readonly LogEntry[]
  now(): Reading
  dispatch(command: Command, source: Source, transcript?: string, confirmed?: boolean): Decision
  /** Lets time pass and gives every cue at its moment. */
  advance(by_ms: number): void
  /** Time passes in which the page cannot run; then it notices, as the app does on waking. */
  beAway(kind: 'crash' | 'sleep' | 'hidden', away_ms: number): void
  setClock(by_ms: number): void
}

/** Where the clocks stand at the start: an invented morning. */
export const SIMULATED_START: Reading = {
  wall_ms: Date.UTC(2026, 10, 25, 8, 0, 0),
  mono_ms: 5000,
  boot: 'boot-1',
  offset_min: 60,
}

/** Opens a draw. Alarms that repeat are given too, so a long `advance` with the band on fills the log as life would. */
export function createSimulatedDraw(
  opening: DrawOpened,
  sha256: Sha256,
  start: Reading = SIMULATED_START,
): SimulatedDraw {
  const seal = createSeal(sha256)
  const { entry, state: opened } = openDraw(opening, start, seal)
  const entries: LogEntry[] = [entry]
  let state = opened
  let now = start
  let boots = 1

  function dispatch(
    command: Command,
    source: Source,
    transcript?: string,
    confirmed?: boolean,
  ): Decision {
    const next = transition(state, command, { now, source, transcript, confirmed }, seal)
    entries.push(...next.entries)
    state = next.state
    return next.decision
  }

  function giveCues(): void {
    for (const due of dueCues(state, now)) {
      dispatch({ type: 'giveCue', ...due }, 'clock')
    }
  }

  const pass = (by_ms: number): void => {
    now = { ...now, wall_ms: now.wall_ms + by_ms, mono_ms: now.mono_ms + by_ms }
  }

  function advance(by_ms: number): void {
    let left_ms = by_ms
    giveCues()
    while (left_ms > 0) {
      const next_ms = Math.max(1, nextCueIn_ms(state, now) ?? left_ms)
      const step_ms = Math.min(next_ms, left_ms)
      pass(step_ms)
      left_ms -= step_ms
      giveCues()
    }
  }

  function beAway(kind: 'crash' | 'sleep' | 'hidden', away_ms: number): void {
    if (kind === 'sleep') {
      now = { ...now, wall_ms: now.wall_ms + away_ms }
      dispatch({ type: 'noticeClockStep', by_ms: away_ms }, 'app')
    } else if (kind === 'hidden') {
      pass(away_ms)
      dispatch({ type: 'noticeAway', away_ms }, 'app')
    } else {
      boots += 1
      now = { ...now, wall_ms: now.wall_ms + away_ms, mono_ms: 1000, boot: `boot-${boots}` }
      state = replay(entries)
      const last_ms = state.last.at.wall_ms
      if (!state.closed) {
        dispatch({ type: 'noticeAway', away_ms: Math.max(0, now.wall_ms - last_ms) }, 'app')
      }
    }
    giveCues()
  }

  function setClock(by_ms: number): void {
    now = { ...now, wall_ms: now.wall_ms + by_ms }
    dispatch({ type: 'noticeClockStep', by_ms }, 'app')
    giveCues()
  }

  return {
    state: () => state,
    log: () => entries,
    now: () => now,
    dispatch,
    advance,
    beAway,
    setClock,
  }
}
