import { describe, expect, it } from 'vitest'
import type { AudioTrouble } from '../../../src/adapters/speech/vosk/audioSource.ts'
import type { MicPermission } from '../../../src/adapters/speech/vosk/micPermission.ts'
import {
  AGAIN_ms,
  ASK_AGAIN_ms,
  mayTryAgain,
  type RetryTrigger,
} from '../../../src/adapters/speech/vosk/micRetry.ts'

const TRIGGERS: readonly RetryTrigger[] = ['timer', 'touch', 'deviceChange', 'permissionChange']

/** Which triggers are a reason, so long after the microphone was last asked for. */
const reasons = (
  trouble: AudioTrouble | undefined,
  permission: MicPermission,
  since_ms: number,
): readonly RetryTrigger[] =>
  TRIGGERS.filter((trigger) => mayTryAgain(trigger, trouble, permission, since_ms))

describe('trying the microphone again', () => {
  it.each([undefined, 'microphoneMuted', 'audioSuspended', 'insecurePage'] as const)(
    'has no reason when it is %s',
    (trouble) => {
      expect(reasons(trouble, 'granted', Infinity)).toEqual([])
    },
  )

  it('happens at once when it is allowed, and every other second from then on', () => {
    expect(reasons('notAllowed', 'granted', 0)).toEqual(['deviceChange', 'permissionChange'])
    expect(reasons('notAllowed', 'granted', AGAIN_ms)).toEqual(TRIGGERS)
    expect(reasons('microphoneLost', 'granted', AGAIN_ms)).toEqual(TRIGGERS)
  })

  it('waits for a touch while it is denied, in case the browser did not tell of a change', () => {
    expect(reasons('notAllowed', 'denied', AGAIN_ms)).toEqual(['touch', 'deviceChange'])
  })

  it.each<[AudioTrouble, MicPermission]>([
    ['notAllowed', 'prompt'],
    ['microphoneLost', 'prompt'],
    ['notAllowed', 'unknown'],
  ])('puts no question over the page by itself, nor often: %s, %s', (trouble, permission) => {
    expect(reasons(trouble, permission, ASK_AGAIN_ms - 1)).toEqual(['deviceChange'])
    expect(reasons(trouble, permission, ASK_AGAIN_ms)).toEqual(['touch', 'deviceChange'])
  })

  it('happens by itself where the browser tells nothing of permissions and none is missing', () => {
    expect(reasons('microphoneLost', 'unknown', AGAIN_ms)).toContain('timer')
    expect(reasons('microphoneFailed', 'unknown', AGAIN_ms)).toContain('timer')
  })
})
