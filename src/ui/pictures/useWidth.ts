import { useLayoutEffect, useRef, useState, type RefObject } from 'react'

/** The width an element has on the screen, px; `usual` until it was measured, and on paper. */
export function useWidth<E extends Element>(usual: number): readonly [RefObject<E | null>, number] {
  const ref = useRef<E>(null)
  // It will have no more than the page, which also holds while it is not shown and has no width.
  const [width, setWidth] = useState(() =>
    // On paper there is no window.
    'ResizeObserver' in globalThis
      ? Math.min(usual, document.documentElement.clientWidth || usual)
      : usual,
  )
  // Before anything is painted, so that nothing is seen to shrink into its place.
  useLayoutEffect(() => {
    const element = ref.current
    if (!element || !('ResizeObserver' in window)) return undefined
    const take = (wide_px: number): void => {
      if (wide_px >= 1) setWidth(Math.round(wide_px))
    }
    take(element.clientWidth)
    const observer = new ResizeObserver(([entry]) => take(entry?.contentRect.width ?? 0))
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [ref, width]
}
