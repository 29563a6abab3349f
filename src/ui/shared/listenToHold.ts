import type { HeldMove } from '../../core/voice/heldEars.ts'
import { isField } from './listenToKeys.ts'

/**
 * Follows the key that holds the ears open, until the function that it returns is called. A key whose coming up nobody
 * would see, because the page was left or is out of sight, is lost; so is whatever else holds them open.
 * @param code of the key as the browser names it (`F13`); empty for none. In a place to type it types.
 */
export function listenToHold(
  page: Document,
  code: string,
  onMove: (move: HeldMove) => void,
): () => void {
  const isKey = (event: KeyboardEvent): boolean => code !== '' && (event.code || event.key) === code

  function down(event: KeyboardEvent): void {
    if (!isKey(event) || isField(event.target)) return
    if (event.ctrlKey || event.altKey || event.metaKey) return
    event.preventDefault()
    if (!event.repeat) onMove('press')
  }
  function up(event: KeyboardEvent): void {
    if (isKey(event)) onMove('release')
  }
  const lose = (): void => onMove('lose')
  const hide = (): void => {
    if (page.visibilityState === 'hidden') lose()
  }

  const window = page.defaultView
  page.addEventListener('keydown', down)
  page.addEventListener('keyup', up)
  page.addEventListener('visibilitychange', hide)
  window?.addEventListener('blur', lose)
  return () => {
    page.removeEventListener('keydown', down)
    page.removeEventListener('keyup', up)
    page.removeEventListener('visibilitychange', hide)
    window?.removeEventListener('blur', lose)
    lose()
  }
}
