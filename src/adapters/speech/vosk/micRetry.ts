import type { AudioTrouble } from './audioSource.ts'
import type { MicPermission } from './micPermission.ts'

/** What may be a reason to try the microphone again. */
export type RetryTrigger = 'timer' | 'touch' | 'deviceChange' | 'permissionChange'

/** A microphone that nobody has to be asked about is tried again this often, ms. */
export const AGAIN_ms = 2000
/** The browser's question to the person is not put again sooner than this, and never unless they touch the page, ms. */
export const ASK_AGAIN_ms = 30_000

const WITHOUT_MICROPHONE: ReadonlySet<AudioTrouble | undefined> = new Set([
  'noMicrophone',
  'notAllowed',
  'microphoneLost',
  'microphoneFailed',
])

/**
 * Whether the microphone is to be asked for again, `since_ms` after it was last asked for. Whoever plugs one in wants
 * it used. Otherwise, where asking may put the browser's question over the page, only a touch is a reason, and seldom:
 * it could come in the middle of a draw.
 */
export function mayTryAgain(
  trigger: RetryTrigger,
  trouble: AudioTrouble | undefined,
  permission: MicPermission,
  since_ms: number,
): boolean {
  if (!WITHOUT_MICROPHONE.has(trouble)) return false
  if (trigger === 'deviceChange') return true
  const asksPerson =
    permission === 'prompt' || (permission === 'unknown' && trouble === 'notAllowed')
  if (asksPerson) return trigger === 'touch' && since_ms >= ASK_AGAIN_ms
  if (permission === 'denied' && trigger !== 'touch') return false
  if (trigger === 'permissionChange') return true
  return since_ms >= AGAIN_ms
}
