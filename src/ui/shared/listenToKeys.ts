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

export interface KeyListener {
  readonly marks: () => ScanMarks
  /** Takes what the keys mean; false leaves the key to whatever has the focus. */
  readonly onAct: (act: KeyAct) => boolean
}

/** Listens to every key of a page until the function that it returns is called. */
export function listenToKeys(page: Document, { marks, onAct }: KeyListener): () => void {
  let reader: KeyReader = NO_KEYS
  let field: KeyReader = NO_KEYS
  let timer: ReturnType<typeof setTimeout> | undefined

  function settle(reading: KeyReading, at_ms: number): boolean {
    clearTimeout(timer)
    reader = reading.reader
    const { wake_ms } = reading
    if (wake_ms !== undefined) {
      const wake = (): void => void settle(afterQuiet(reader, wake_ms, marks()), wake_ms)
      timer = setTimeout(wake, Math.max(0, wake_ms - at_ms))
    }
    return reading.acts.map(onAct).every(Boolean) && reading.used
  }

  /** A label scanned into a field stays there as text; the Enter behind it sends no form. */
  function inField(stroke: Stroke): boolean {
    const reading = keyDown(field, stroke, marks(), false)
    field = reading.reader
    // No scanner sends Backspace: whoever presses it corrects what stands in the field.
    if (stroke.key === 'Backspace') return false
    return reading.acts.some((act) => act.kind === 'scan' && act.by !== 'speed')
  }

  function down(event: KeyboardEvent): void {
    if (event.ctrlKey || event.altKey || event.metaKey) return
    const stroke = strokeOf(event)
    const used = isField(event.target)
      ? inField(stroke)
      : settle(keyDown(reader, stroke, marks(), !isPressable(event.target)), stroke.at_ms)
    if (used) event.preventDefault()
  }

  function up(event: KeyboardEvent): void {
    const stroke = strokeOf(event)
    field = keyUp(field, stroke).reader
    settle(keyUp(reader, stroke), stroke.at_ms)
  }

  /** A key that comes up in another window is never seen to come up here. */
  function forget(): void {
    clearTimeout(timer)
    reader = NO_KEYS
    field = NO_KEYS
  }

  const window = page.defaultView
  page.addEventListener('keydown', down)
  page.addEventListener('keyup', up)
  window?.addEventListener('blur', forget)
  return () => {
    page.removeEventListener('keydown', down)
    page.removeEventListener('keyup', up)
    window?.removeEventListener('blur', forget)
    forget()
  }
}

const strokeOf = (event: KeyboardEvent): Stroke => ({
  key: event.key,
  code: event.code,
  shift: event.shiftKey,
  repeat: event.repeat,
  at_ms: event.timeStamp,
})

/** A place to type in keeps all its keys. */
export const isField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName))

/** What Space and Enter press by themselves. */
const isPressable = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.closest('button, a[href], summary') !== null
