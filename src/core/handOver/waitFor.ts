/** How long is waited between tries; the site's data file says. */
export interface WaitLimits {
  readonly firstWait_s: number
  readonly mostWait_s: number
}

/**
 * How long to wait before the next try: twice as long after each failure in a row, up to the most, and somewhere in the
 * upper half of that, so that all devices of a site do not come back in one moment. What the server asks for counts
 * where it is longer, up to the most.
 * @param failures in a row, 1 or more
 * @param lot from 0 up to and without 1
 */
export function waitFor_ms(
  failures: number,
  { firstWait_s, mostWait_s }: WaitLimits,
  lot: number,
  asked_s = 0,
): number {
  const doubled_s = Math.min(mostWait_s, firstWait_s * 2 ** Math.min(failures - 1, 30))
  const own_s = doubled_s * (0.5 + lot / 2)
  return Math.round(Math.max(own_s, Math.min(asked_s, mostWait_s)) * 1000)
}
