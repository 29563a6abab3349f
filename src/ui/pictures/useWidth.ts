import { useEffect, useRef, useState, type RefObject } from 'react'

/** The width an element has on the screen, px; `usual` until it was measured, and on paper. */
export function useWidth<E extends Element>(usual: number): readonly [RefObject<E | null>, number] {
  const ref = useRef<E>(null)
  const [width, setWidth] = useState(usual)
  useEffect(() => {
    const element = ref.current
    if (!element || !('ResizeObserver' in window)) return undefined
    const observer = new ResizeObserver(([entry]) => {
      const now = Math.round(entry?.contentRect.width ?? 0)
      if (now > 0) setWidth(now)
    })
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [ref, width]
}
