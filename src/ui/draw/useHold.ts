import { useEffect, useRef, useState } from 'react'

/** So long a press may still have been meant for what stood there before (a double press takes up to half a second). */
export const HOLD_ms = 600

export interface Hold {
  /** Keys, pedal and touch wait; the voice does not. */
  readonly isHeld: boolean
  /** Says whether a press may act now, and begins the wait for the next one if it may. */
  readonly takes: () => boolean
}

/**
 * After each change of what is asked, presses wait: a press that was meant for the step before never confirms this one.
 * @param asked changes whenever another thing is asked.
 */
export function useHold(asked: string): Hold {
  const [pressed_n, setPressed] = useState(0)
  const turn = `${pressed_n} ${asked}`
  const [free, setFree] = useState<string>()
  const taken = useRef<string>(undefined)
  useEffect(() => {
    const timer = setTimeout(() => setFree(turn), HOLD_ms)
    return () => clearTimeout(timer)
  }, [turn])
  const isHeld = free !== turn
  const takes = (): boolean => {
    // Two presses before the page could be drawn anew are one.
    if (isHeld || taken.current === turn) return false
    taken.current = turn
    setPressed((n) => n + 1)
    return true
  }
  return { isHeld, takes }
}
