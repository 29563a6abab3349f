import { defined } from '../basics/defined.ts'
import {
  NOTED_MOMENTS,
  sittingKey,
  TOLD_MOMENTS,
  type NotedMoment,
  type ToldMoment,
} from '../order/sitting.ts'
import type { Stamp } from '../time/stamp.ts'
import type { Command } from './commands.ts'
import { impossible, record, type Decision } from './decision.ts'
import type { DrawState } from './state.ts'

/** A minute is written without its seconds, and two clocks never agree to the second. */
const AHEAD_ms = 60_000
/** A next dose is told ahead; longer than this is a slip (common practice, no source). */
const DOSE_AHEAD_ms = 7 * 86_400_000

/**
 * What is told of the series that a draw belongs to, in the draw or after its close. Only a moment that one of its
 * samples is counted from can be told.
 */
export function decideSeries(
  s: DrawState,
  command: Extract<Command, { type: 'noteMoment' | 'leaveOut' | 'goOnWithSeries' }>,
  now: Stamp,
): Decision {
  if (command.type === 'noteMoment') {
    const { moment, at_ms, why } = command
    const ahead_ms = moment === 'nextDose' ? DOSE_AHEAD_ms : AHEAD_ms
    if (!notedMomentsOf(s).includes(moment)) return impossible('nothingOpen')
    if (!Number.isFinite(at_ms) || at_ms > now.at_ms + ahead_ms) return impossible('notYet')
    return record(
      defined({ type: 'momentNoted' as const, moment, at_ms, why: why?.trim() || undefined }),
    )
  }
  const { sitting } = s.opened
  if (command.type === 'goOnWithSeries') {
    const [by, why] = [command.by.trim(), command.why.trim()]
    if (!sitting || command.holds.length === 0) return impossible('nothingOpen')
    if (by === '' || why === '') return impossible('notDecided')
    return record({ type: 'seriesWentOn', holds: command.holds, by, why })
  }
  const known = new Set([...(sitting?.parts ?? []), ...(sitting?.later ?? [])].map(sittingKey))
  const left = new Set(s.leftOut)
  const sittings = command.sittings.filter(
    (sitting) => known.has(sittingKey(sitting)) && !left.has(sittingKey(sitting)),
  )
  const why = command.why.trim()
  if (why === '') return impossible('notDecided')
  if (sittings.length === 0) return impossible('alreadyDone')
  return record({
    type: 'sittingsLeftOut',
    sittings: sittings.map(({ code, number }) => ({ code, number })),
    why,
  })
}

/** Moments that samples of the draw or of those after it are counted from, as far as a person tells them. */
export function momentsOf({ opened: { sitting } }: DrawState): readonly ToldMoment[] {
  const points = [...(sitting?.parts ?? []), ...(sitting?.later ?? [])]
  return TOLD_MOMENTS.filter((moment) => points.some(({ from }) => from === moment))
}

/** The same with those that are told ahead. */
function notedMomentsOf({ opened: { sitting } }: DrawState): readonly NotedMoment[] {
  const points = [...(sitting?.parts ?? []), ...(sitting?.later ?? [])]
  return NOTED_MOMENTS.filter((moment) => points.some(({ from }) => from === moment))
}

/** Those of them that nobody told yet. */
export function momentsOpen(s: DrawState): readonly ToldMoment[] {
  return momentsOf(s).filter((moment) => !s.moments.some((told) => told.moment === moment))
}
