import { useCallback, useEffect, useLayoutEffect, useRef, useState } from 'react'

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
  const [isHeld, setHeld] = useState(true)
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)
  const held = useRef(true)
  const begin = useCallback((): void => {
    clearTimeout(timer.current)
    held.current = true
    setHeld(true)
    timer.current = setTimeout(() => {
      held.current = false
      setHeld(false)
    }, HOLD_ms)
  }, [])
  useLayoutEffect(begin, [asked, begin])
  useEffect(() => () => clearTimeout(timer.current), [])
  const takes = useCallback((): boolean => {
    if (held.current) return false
    begin()
    return true
  }, [begin])
  return { isHeld, takes }
}
