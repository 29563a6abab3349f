export type PinFault = 'digitsOnly' | 'tooShort' | 'tooLong' | 'tooSimple'

const SHORTEST_PIN = 6
export const LONGEST_PIN = 12

/**
 * Why a PIN is refused, or `undefined`. Six digits are a million; common practice, no source. One digit over and over
 * and digits in a row are what anybody tries first.
 */
export function pinFault(pin: string): PinFault | undefined {
  if (!/^\d*$/.test(pin)) return 'digitsOnly'
  if (pin.length < SHORTEST_PIN) return 'tooShort'
  if (pin.length > LONGEST_PIN) return 'tooLong'
  const steps = new Set([...pin].slice(1).map((digit, index) => Number(digit) - Number(pin[index])))
  const [step = 0] = steps
  return steps.size === 1 && Math.abs(step) <= 1 ? 'tooSimple' : undefined
}

/** Waits after so many wrong PINs in a row, s. The first slips cost nothing; common practice, no source. */
const WAITS_s = [0, 0, 0, 5, 15, 30, 60, 120, 300] as const

/** How long after that many wrong PINs in a row no further one is tried. It never gets shorter. */
export function pinWait_ms(wrong: number): number {
  return 1000 * (WAITS_s[Math.min(wrong, WAITS_s.length - 1)] ?? 0)
}
