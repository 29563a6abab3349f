import { afterQuiet, keyDown, keyUp, NO_KEYS, type KeyAct, type KeyReader } from '../../src/core/scan/keyReader.ts' // prettier-ignore
import { NO_MARKS, type ScanMarks } from '../../src/core/scan/judgeBurst.ts'
import type { Stroke } from '../../src/core/scan/strokes.ts'

/** One key as a device strikes it. Times are ms from the stroke before. */
export interface Struck {
  readonly key: string
  readonly code?: string
  readonly shift?: boolean
  readonly gap_ms: number
  /** How long the key stays down; none where the device never says that it came up. */
  readonly held_ms?: number
}

export interface TimedAct {
  readonly act: KeyAct
  readonly at_ms: number
  /** The time of the last key before it. */
  readonly after_ms: number
}

/** The code of a character's key on a keyboard of the United States. */
export function codeOf(character: string): string {
  if (/^[a-z]$/i.test(character)) return `Key${character.toUpperCase()}`
  if (/^[0-9]$/.test(character)) return `Digit${character}`
  return { '-': 'Minus', '.': 'Period', '/': 'Slash', ' ': 'Space' }[character] ?? ''
}

/** A text as a scanner types it: every character `gap_ms` after the last, keys down for `held_ms`, then `end`. */
export function scanned(
  text: string,
  gap_ms: number,
  { held_ms = 5, end = ['Enter'] }: { held_ms?: number; end?: readonly string[] } = {},
): readonly Struck[] {
  const keys = [...text].map((key): Struck => {
    return { key, code: codeOf(key), shift: /^[A-Z]$/.test(key), gap_ms, held_ms }
  })
  return [...keys, ...end.map((key): Struck => ({ key, code: key, gap_ms, held_ms }))]
}

/** Plays strokes on a clock of their own and lets the reader's timer ring when it is due. */
export function typeKeys(
  strokes: readonly Struck[],
  marks: ScanMarks = NO_MARKS,
  free = true,
): readonly TimedAct[] {
  const moves = movesOf(strokes)
  const acts: TimedAct[] = []
  let reader: KeyReader = NO_KEYS
  let wake_ms: number | undefined
  let last_ms = 0
  const settle = (reading: ReturnType<typeof keyDown>, at_ms: number): void => {
    reader = reading.reader
    wake_ms = reading.wake_ms
    acts.push(...reading.acts.map((act) => ({ act, at_ms, after_ms: last_ms })))
  }
  const ringUntil = (until_ms: number): void => {
    while (wake_ms !== undefined && wake_ms <= until_ms) {
      const now_ms = wake_ms
      settle(afterQuiet(reader, now_ms, marks), now_ms)
    }
  }
  for (const { down, stroke } of moves) {
    ringUntil(stroke.at_ms - 1)
    settle(down ? keyDown(reader, stroke, marks, free) : keyUp(reader, stroke), stroke.at_ms)
    if (down) last_ms = stroke.at_ms
  }
  ringUntil(Infinity)
  return acts
}

/** Keys overlap when one is held longer than the time to the next. */
function movesOf(strokes: readonly Struck[]): readonly { down: boolean; stroke: Stroke }[] {
  let at_ms = 1000
  const moves = strokes.flatMap(({ key, code = '', shift = false, gap_ms, held_ms }) => {
    at_ms += gap_ms
    const stroke: Stroke = { key, code, shift, repeat: false, at_ms }
    const down = { down: true, stroke }
    if (held_ms === undefined) return [down]
    return [down, { down: false, stroke: { ...stroke, at_ms: at_ms + held_ms } }]
  })
  return moves.sort((a, b) => a.stroke.at_ms - b.stroke.at_ms)
}
