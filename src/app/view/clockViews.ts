import { fillText } from '../../core/basics/fillText.ts'
import { clocksOf, type DrawClock } from '../../core/protocol/clocks.ts'
import { clockId } from '../../core/protocol/cueId.ts'
import { shown_ms } from '../../core/protocol/dueCues.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { minutesSeconds } from '../../core/time/format.ts'
import type { Reading } from '../../core/time/stamp.ts'
import type { ClockView } from './drawViewTypes.ts'
import type { ClockTexts, DrawTexts } from '../site/drawTexts.ts'
import type { ViewTexts } from './viewTexts.ts'

export type ClockWords = Pick<ViewTexts, 'words' | 'texts'>

/** Share of a limit after which it counts as nearly up. */
const NEARLY = 0.5

/** The clocks of this moment, the one that matters most first. */
export function clockViews(s: DrawState, now: Reading, from: ClockWords): readonly ClockView[] {
  return clocksOf(s).map((clock) => clockView(clock, shown_ms(s, clock, now), from))
}

/** `Band on: 0:38, 0:22 left.` or, where the figures count down, `Drying: 0:23 of 0:30 to go.` */
export function clockSentence(view: ClockView, { clock }: DrawTexts): string {
  const { label, text: time, says, direction } = view
  return fillText(direction === 'down' ? clock.countdown : clock.sentence, { label, time, says })
}

/** One clock after so long. */
export function clockView(
  clock: DrawClock,
  passed_ms: number,
  { words, texts }: ClockWords,
): ClockView {
  const left_ms = clock.length_ms - passed_ms
  const down = clock.holds === 'wait' && left_ms > 0
  const value_ms = down ? runningSecond_ms(left_ms) : passed_ms
  return {
    id: clockId(clock),
    kind: clock.kind,
    label: words.clocks[clock.kind],
    text: minutesSeconds(value_ms),
    value_ms,
    limit_ms: clock.length_ms,
    direction: down ? 'down' : 'up',
    state: clockState(clock, passed_ms),
    says: clockSays(clock, passed_ms, texts.draw.clock),
  }
}

/** A countdown shows the second that is running, so that it reads 0:00 only when it is over. */
const runningSecond_ms = (left_ms: number): number => Math.ceil(left_ms / 1000) * 1000

function clockState(clock: DrawClock, passed_ms: number): ClockView['state'] {
  if (clock.holds === 'limit') {
    if (passed_ms >= clock.length_ms) return 'up'
    return passed_ms >= clock.length_ms * NEARLY ? 'nearlyUp' : 'running'
  }
  if (clock.holds === 'wait') return passed_ms >= clock.length_ms ? 'done' : 'running'
  return passed_ms >= clock.length_ms ? 'nearlyUp' : 'running'
}

function clockSays(clock: DrawClock, passed_ms: number, texts: ClockTexts): string {
  if (!Number.isFinite(passed_ms)) return texts.unknown
  const left_ms = clock.length_ms - passed_ms
  const left = minutesSeconds(runningSecond_ms(left_ms))
  if (clock.holds === 'limit') {
    return left_ms > 0
      ? fillText(texts.left, { left })
      : fillText(texts.over, { time: minutesSeconds(-left_ms) })
  }
  const whole = minutesSeconds(clock.length_ms)
  if (clock.holds === 'wait') {
    return fillText(left_ms > 0 ? texts.toGo : texts.waitOver, { left, whole })
  }
  return left_ms > 0 ? fillText(texts.fullAt, { whole }) : texts.fullByNow
}
