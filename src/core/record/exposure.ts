import { fillText, type Text, type TextValues } from '../basics/fillText.ts'
import type { DrawLog, LogEntry } from '../protocol/entry.ts'
import type { DrawEvent } from '../protocol/events.ts'
import { replay } from '../protocol/evolve.ts'
import { keptEntries } from '../protocol/keptEntries.ts'
import type { NeedleSet } from '../order/order.ts'
import { needleSetOf } from '../protocol/facts.ts'
import { stepOf, type StepId } from '../protocol/steps.ts'
import { limit, limit_ms } from '../policy/policy.ts'
import { elapsed, type Stamp } from '../time/stamp.ts'
import { fullMoment } from '../time/format.ts'
import { factsOf } from './factsOf.ts'
import { namedHandovers } from './namedHandovers.ts'
import { personText } from './noteWords.ts'

/** Lines of the exposure record, in the order they are written. */
export type ExposureText =
  | 'title'
  | 'invented'
  | 'confidential'
  | 'who'
  | 'when'
  | 'place'
  | 'during'
  | 'route'
  | 'device'
  | 'shieldClosed'
  | 'shieldLater'
  | 'shieldOpen'
  | 'remark'
  | 'tookOver'
  | 'dealtWith'
  | 'source'
  | 'window'
  | 'byHand'

export interface ExposureTexts {
  readonly lines: Readonly<Record<ExposureText, Text>>
  readonly lancet: string
  /** What the app cannot know and a person fills in. */
  readonly blanks: readonly string[]
}

/** Words that stand in other language files. */
export interface ExposureNames {
  readonly step: (id: StepId) => string
  /** The needle or set that was in use; `undefined`: a lancet. */
  readonly device: (set: NeedleSet | undefined) => string
}

export const hasExposure = ({ entries }: DrawLog): boolean =>
  keptEntries(entries).kept.some(({ event }) => isNeedlestick(event))

/**
 * The exposure record of a draw as text, one block for each needlestick, for whoever was stuck and for occupational
 * health; `undefined` when there was none. It names the draw and not the patient. What it holds and leaves to be filled
 * in is what 29 CFR 1910.1030(h)(5) and (f)(3) ask for: device type and brand, work area, how it happened, route and
 * circumstances, the source individual, evaluation.
 */
export function writeExposure(
  log: DrawLog,
  texts: ExposureTexts,
  names: ExposureNames,
): string | undefined {
  const kept = namedHandovers(keptEntries(log.entries).kept)
  const sticks = kept.filter(({ event }) => isNeedlestick(event))
  if (sticks.length === 0) return undefined
  const { opened } = factsOf(log)
  const say = (line: ExposureText, values: TextValues = {}): string =>
    fillText(texts.lines[line], values)
  const head = [say('title'), ...(opened.invented ? [say('invented')] : []), say('confidential')]
  const blocks = sticks.map((stick, i) =>
    block(log, stick, until(sticks[i + 1], kept), say, names).join('\n'),
  )
  const blanks = [say('byHand'), ...texts.blanks.map((blank) => `  ${blank}: ____________________`)]
  return `${[head.join('\n'), ...blocks, blanks.join('\n')].join('\n\n')}\n`
}

const isNeedlestick = (event: DrawEvent): boolean =>
  event.type === 'exceptionRaised' && event.kind === 'needlestick'

const until = (next: LogEntry | undefined, kept: readonly LogEntry[]): readonly LogEntry[] =>
  next ? kept.filter(({ seq }) => seq < next.seq) : kept

function block(
  log: DrawLog,
  stick: LogEntry,
  kept: readonly LogEntry[],
  say: (line: ExposureText, values?: TextValues) => string,
  names: ExposureNames,
): readonly string[] {
  const { opened, punctures, collectors } = factsOf(log)
  const before = replay(log.entries.filter(({ seq }) => seq < stick.seq))
  const after = kept.filter(({ seq }) => seq >= stick.seq)
  const who = collectors.findLast(({ collector }) => collector.id === stick.by)?.collector
  const { isLancet, number: puncture } = before.puncture
  const set = names.device(isLancet || before.collecting ? undefined : needleSetOf(before))
  const shield = punctures.find(({ number }) => number === puncture)?.shield
  const { policy } = opened
  const end = {
    ...stick.at,
    wall_ms: 0,
    at_ms: stick.at.at_ms + limit_ms(policy, 'prophylaxisWindow_h'),
  }
  const note = stick.event.type === 'exceptionRaised' ? stick.event.note : undefined
  const values: TextValues = {
    person: who ? personText(who) : stick.by,
    at: fullMoment(stick.at),
    site: opened.site,
    step: names.step(stepOf(before).id),
    set,
    drawId: log.drawId,
    until: fullMoment(end),
    hours: limit(policy, 'prophylaxisWindow_h'),
    shield: shield ? fullMoment(shield) : '',
    later_s: shield ? Math.round(elapsed(stick.at, shield).most_ms / 1000) : '',
  }
  return [
    ...(['who', 'when', 'place', 'during', 'route', 'device'] as const).map((line) =>
      say(line, values),
    ),
    say(shieldLine(before.puncture.shield, shield), values),
    ...(note === undefined ? [] : [say('remark', { at: fullMoment(stick.at), text: note })]),
    ...after.flatMap(({ event, at }) => later(event, fullMoment(at), say)),
    say('source', values),
    say('window', values),
  ]
}

/** What a sharps injury log asks for is how the safety feature was at the moment of the injury. */
function shieldLine(atInjury: Stamp | undefined, closed: Stamp | undefined): ExposureText {
  if (!closed) return 'shieldOpen'
  return atInjury ? 'shieldClosed' : 'shieldLater'
}

function later(
  event: DrawEvent,
  at: string,
  say: (line: ExposureText, values?: TextValues) => string,
): readonly string[] {
  if (event.type === 'exposureNoted') return [say('remark', { at, text: event.text })]
  if (event.type === 'collectorChanged')
    return [say('tookOver', { at, person: personText(event.to) })]
  const dealtWith = event.type === 'exceptionEnded' && event.kind === 'needlestick'
  return dealtWith ? [say('dealtWith', { at })] : []
}
