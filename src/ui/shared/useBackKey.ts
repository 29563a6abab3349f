import { useEffect, useEffectEvent } from 'react'

/**
 * Escape goes back, on every screen that has a way back. In a field that is typed in or chosen from it only leaves the
 * field, so that nobody loses a form by closing a list; a key that is held goes back once.
 */
export function useBackKey(onBack: (() => void) | undefined): void {
  const onKey = useEffectEvent((event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.defaultPrevented || event.repeat) return
    if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing || !onBack) return
    event.preventDefault()
    const field = event.target
    if (isTypedIn(field)) field.blur()
    else onBack()
  })
  useEffect(() => {
    const listen = (event: KeyboardEvent): void => onKey(event)
    document.addEventListener('keydown', listen)
    return () => document.removeEventListener('keydown', listen)
  }, [])
}

const PRESSED = /^(checkbox|radio|range|file|button|submit)$/

const isTypedIn = (target: EventTarget | null): target is HTMLElement =>
  target instanceof HTMLElement &&
  (/^(TEXTAREA|SELECT)$/.test(target.tagName) ||
    (target instanceof HTMLInputElement && !PRESSED.test(target.type)))
