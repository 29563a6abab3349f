import { useEffect, useEffectEvent, useRef } from 'react'
import { addCharacter, EMPTY_SCAN, finishedScan, SCAN_GAP_ms } from './scanBuffer.ts'
import type { ScanBuffer } from './scanBuffer.ts'

export interface KeyActions {
  /** `Space`, `Backspace` or `1`..`9`, as the choices name them; Enter arrives as `Space`. */
  readonly onKey: (key: string) => void
  readonly onScan: (text: string) => void
}

const isField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName))

const isPressable = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.closest('button, a[href], summary') !== null

/**
 * The one place where keys become choices: keyboards, foot pedals that type keys, and scanners that type a code and
 * Enter. A held key counts once; a focused field or button keeps its own keys; a scan never counts as choices.
 * Digits wait `SCAN_GAP_ms` to be sure that no scanner is behind them.
 */
export function useKeys(on: boolean, { onKey, onScan }: KeyActions): void {
  const buffer = useRef<ScanBuffer>(EMPTY_SCAN)
  const waiting = useRef<ReturnType<typeof setTimeout>>(undefined)

  const flush = useEffectEvent(() => {
    clearTimeout(waiting.current)
    const { text } = buffer.current
    buffer.current = EMPTY_SCAN
    if (/^[1-9]$/.test(text)) onKey(text)
  })

  const press = useEffectEvent((event: KeyboardEvent) => {
    if (event.ctrlKey || event.altKey || event.metaKey || isField(event.target)) return
    if (event.repeat) {
      if (event.key === ' ' || event.key === 'Backspace') event.preventDefault()
      return
    }
    if (event.key.length === 1 && event.key !== ' ') {
      clearTimeout(waiting.current)
      buffer.current = addCharacter(buffer.current, event.key, event.timeStamp)
      waiting.current = setTimeout(flush, SCAN_GAP_ms)
      return
    }
    if (event.key === 'Enter') {
      const scan = finishedScan(buffer.current, event.timeStamp)
      if (scan !== undefined) {
        clearTimeout(waiting.current)
        buffer.current = EMPTY_SCAN
        event.preventDefault()
        onScan(scan)
        return
      }
    }
    if (event.key !== 'Enter' && event.key !== ' ' && event.key !== 'Backspace') return
    flush()
    if (event.key !== 'Backspace' && isPressable(event.target)) return
    event.preventDefault()
    onKey(event.key === 'Backspace' ? 'Backspace' : 'Space')
  })

  useEffect(() => {
    if (!on) return
    const listener = (event: KeyboardEvent): void => press(event)
    document.addEventListener('keydown', listener)
    return () => {
      document.removeEventListener('keydown', listener)
      clearTimeout(waiting.current)
      buffer.current = EMPTY_SCAN
    }
  }, [on])
}
