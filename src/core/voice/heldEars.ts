/** Limits of held listening; `src/data/listening.json`. */
export interface HeldLimits {
  /** A press let go sooner is a tap, ms. */
  readonly tap_ms: number
  /** So long a tap opens the ears, ms. */
  readonly tapOpens_ms: number
  /** Held longer than this something lies on the key: it closes, ms. */
  readonly longest_ms: number
  /** What is made out sooner after the press was said before it, ms. */
  readonly settle_ms: number
  /** What is made out this long after the close was still said before it, ms. */
  readonly tail_ms: number
  /** Amid other talk a phrase stands this long before it acts; the final result may be sooner, ms. */
  readonly stands_ms: number
}

/** When the ears were held open last, monotonic ms; without an end they still are. */
export interface HeldSpan {
  readonly from_ms: number
  readonly to_ms?: number
}

/** The key, the pedal or the bar as it stands. */
export interface HeldEars {
  readonly span?: HeldSpan
  /** It is down since then, and may still be a tap. */
  readonly down_ms?: number
}

export type HeldMove =
  /** Down, up, or lost: the page was left, or the pointer taken away, and no up will come. */
  'press' | 'release' | 'lose'

export const EARS_CLOSED: HeldEars = {}

/** What a move of the key makes of it. A press that is still down and told again is the same press. */
export function moveEars(
  ears: HeldEars,
  move: HeldMove,
  now_ms: number,
  limits: HeldLimits,
): HeldEars {
  if (move === 'press') {
    if (ears.down_ms !== undefined) return ears
    // A further tap goes on with what is open, so that a phrase begun in it is not cut off.
    const from_ms = isHeldOpen(ears, now_ms) ? (ears.span?.from_ms ?? now_ms) : now_ms
    return { down_ms: now_ms, span: { from_ms, to_ms: now_ms + limits.longest_ms } }
  }
  if (move === 'lose') return closed(ears, now_ms)
  const { down_ms, span } = ears
  if (down_ms === undefined || !span) return ears
  if (!isHeldOpen(ears, now_ms)) return { span }
  if (now_ms - down_ms >= limits.tap_ms) return closed(ears, now_ms)
  return { span: { ...span, to_ms: down_ms + limits.tapOpens_ms } }
}

function closed({ span }: HeldEars, now_ms: number): HeldEars {
  if (!span) return EARS_CLOSED
  return { span: { ...span, to_ms: Math.min(now_ms, span.to_ms ?? now_ms) } }
}

/** Whether they are open at that time. */
export const isHeldOpen = ({ span }: HeldEars, now_ms: number): boolean =>
  span !== undefined && now_ms >= span.from_ms && (span.to_ms === undefined || now_ms < span.to_ms)

/**
 * Whether words were said while the ears were held open. The recognizer makes them out a little later than they are
 * said, so the time goes on for that long, and begins later by the same token.
 * @param seen_ms audio time at which they were made out first
 */
export function isSaidHeld(
  span: HeldSpan | undefined,
  seen_ms: number,
  { settle_ms, tail_ms }: HeldLimits,
): boolean {
  if (!span || seen_ms < span.from_ms + settle_ms) return false
  return span.to_ms === undefined || seen_ms <= span.to_ms + tail_ms
}
