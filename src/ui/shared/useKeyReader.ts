import { useEffect, useEffectEvent, useRef } from 'react'
import type { ScanMarks } from '../../core/scan/judgeBurst.ts'
import {
  afterQuiet,
  keyDown,
  keyUp,
  NO_KEYS,
  type KeyAct,
  type KeyReader,
  type KeyReading,
} from '../../core/scan/keyReader.ts'
import type { Stroke } from '../../core/scan/strokes.ts'
import { isField, isPressable } from './keyTargets.ts'

const strokeOf = (event: KeyboardEvent): Stroke => ({
  key: event.key,
  code: event.code,
  shift: event.shiftKey,
  repeat: event.repeat,
  at_ms: event.timeStamp,
})

/**
 * Reads every key of the page: keyboards, foot pedals that type keys, and scanners that type a code. What a scanner
 * types reaches neither a button nor a choice; see `core/scan/keyReader.ts` for how it is told from a person.
 * @param onAct what the keys mean; it says whether it wants the act, else the key is left to whatever has the focus.
 */
export function useKeyReader(marks: ScanMarks, onAct: (act: KeyAct) => boolean): void {
  const reader = useRef<KeyReader>(NO_KEYS)
  const field = useRef<KeyReader>(NO_KEYS)
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)

  const settle = useEffectEvent((reading: KeyReading, at_ms: number): boolean => {
    clearTimeout(timer.current)
    reader.current = reading.reader
    const { wake_ms } = reading
    if (wake_ms !== undefined) {
      const wait_ms = Math.max(0, wake_ms - at_ms)
      timer.current = setTimeout(() => wake(wake_ms), wait_ms)
    }
    return reading.acts.map(onAct).every(Boolean) && reading.used
  })

  const wake = useEffectEvent((now_ms: number): void => {
    settle(afterQuiet(reader.current, now_ms, marks), now_ms)
  })

  const press = useEffectEvent((event: KeyboardEvent): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return
    const stroke = strokeOf(event)
    if (isField(event.target)) {
      // A label scanned into a field stays there as text; the Enter behind it sends no form.
      const reading = keyDown(field.current, stroke, marks, false)
      field.current = reading.reader
      const scanned = reading.acts.some((act) => act.kind === 'scan' && act.by !== 'speed')
      if (scanned) event.preventDefault()
      return
    }
    const reading = keyDown(reader.current, stroke, marks, !isPressable(event.target))
    if (settle(reading, stroke.at_ms)) event.preventDefault()
  })

  const release = useEffectEvent((event: KeyboardEvent): void => {
    const stroke = strokeOf(event)
    field.current = keyUp(field.current, stroke).reader
    settle(keyUp(reader.current, stroke), stroke.at_ms)
  })

  useEffect(() => {
    const down = (event: KeyboardEvent): void => press(event)
    const up = (event: KeyboardEvent): void => release(event)
    document.addEventListener('keydown', down)
    document.addEventListener('keyup', up)
    // A key that comes up in another window is never seen to come up here.
    const forget = (): void => {
      clearTimeout(timer.current)
      reader.current = NO_KEYS
      field.current = NO_KEYS
    }
    window.addEventListener('blur', forget)
    return () => {
      window.removeEventListener('blur', forget)
      document.removeEventListener('keydown', down)
      document.removeEventListener('keyup', up)
      forget()
    }
  }, [])
}
