import { describe, expect, it } from 'vitest'
import { DEAF_ms, POLL_ms, micTrouble, whyWithheld, type MicFacts } from '../../../src/adapters/speech/vosk/micTrouble.ts' // prettier-ignore

const WELL: MicFacts = {
  withheld: undefined,
  ended: false,
  muted: false,
  running: true,
  chunk_ms: 10_000,
  sound_ms: 10_000,
}

describe('what is wrong with the microphone', () => {
  it('is nothing while sound comes', () => {
    expect(micTrouble(WELL, 10_100)).toBeUndefined()
  })

  it.each([
    [{ withheld: 'noMicrophone' }, 'noMicrophone'],
    [{ withheld: 'notAllowed', ended: true }, 'notAllowed'],
    [{ ended: true }, 'microphoneLost'],
    [{ running: false }, 'audioSuspended'],
    [{ muted: true }, 'microphoneMuted'],
  ] as const)('is told at once for %o', (facts, trouble) => {
    expect(micTrouble({ ...WELL, ...facts }, 10_000)).toBe(trouble)
  })

  it('is told within two seconds when no chunk comes, or only digital silence', () => {
    expect(micTrouble(WELL, 10_000 + DEAF_ms + 1)).toBe('microphoneLost')
    expect(micTrouble({ ...WELL, chunk_ms: 12_000 }, 12_000)).toBe('microphoneMuted')
    expect(DEAF_ms + POLL_ms).toBeLessThan(2000)
  })

  it('is that the browser holds the sound back, rather than a lost microphone, when both look so', () => {
    expect(micTrouble({ ...WELL, running: false }, 60_000)).toBe('audioSuspended')
  })
})

// The names are those of getUserMedia in W3C Media Capture and Streams, section 10.2.
describe('why a microphone could not be had', () => {
  it.each([
    ['NotAllowedError', 'notAllowed'],
    ['SecurityError', 'notAllowed'],
    ['NotFoundError', 'noMicrophone'],
    ['OverconstrainedError', 'noMicrophone'],
    ['NotReadableError', 'microphoneFailed'],
    ['AbortError', 'microphoneFailed'],
  ] as const)('is told by the name of the error: %s is %s', (name, trouble) => {
    const facts = { ...WELL, ...whyWithheld(new DOMException('No.', name), false) }
    expect(micTrouble(facts, 10_000)).toBe(trouble)
  })

  it('is that it is lost when there was one before, but for a permission that was taken away', () => {
    const after = (name: string): unknown =>
      micTrouble({ ...WELL, ...whyWithheld(new DOMException('No.', name), true) }, 10_000)
    expect(after('NotFoundError')).toBe('microphoneLost')
    expect(after('NotReadableError')).toBe('microphoneLost')
    expect(after('NotAllowedError')).toBe('notAllowed')
  })
})
