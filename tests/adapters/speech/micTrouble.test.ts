import { describe, expect, it } from 'vitest'
import { DEAF_ms, POLL_ms, micTrouble, type MicFacts } from '../../../src/adapters/speech/vosk/micTrouble.ts' // prettier-ignore

const WELL: MicFacts = {
  refused: false,
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
    [{ refused: true }, 'noMicrophone'],
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
