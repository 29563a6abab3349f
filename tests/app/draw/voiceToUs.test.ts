import { beforeEach, describe, expect, it } from 'vitest'
import { shippedListening } from '../../support/shippedListening.ts'
import { voiceRig, type VoiceRig } from '../../support/voiceRig.ts'

let rig: VoiceRig

describe('how long, with the needle in', () => {
  const near = { speech_dBFS: -20, above_dB: 15, onset_dB: 15, quiet_ms: 400, spoken_ms: 500 }
  const answered = (): boolean => rig.sound.spoken.some((key) => /^(clock|time)\./.test(key))

  beforeEach(async () => {
    rig = await voiceRig()
    // Three phrases tell how loud the person at the chair is.
    for (const phrase of ['time check', 'say again', 'time check']) await rig.say(phrase, near)
    await rig.touch('needleIn')
    rig.sound.spoken.length = 0
    rig.sound.chimes.length = 0
  })

  it('is answered to us', async () => {
    await rig.say('how long', near)
    expect(answered()).toBe(true)
  })

  it('is not answered where it came from further away', async () => {
    await rig.say('how long', { ...near, speech_dBFS: -35 })
    expect(answered()).toBe(false)
    expect(rig.view()?.heard).toMatchObject({ text: 'how long', outcome: 'refused' })
    expect(rig.sound.chimes).toEqual([])
  })

  it('is asked for again where that is not sure, at most once in some seconds', async () => {
    await rig.say('how long', { ...near, above_dB: 5 })
    expect(answered()).toBe(false)
    expect(rig.sound.spoken).toEqual(['app.again'])
    expect(rig.sound.chimes).toEqual(['notUnderstood'])
    expect(rig.view()?.heard).toMatchObject({ text: 'how long', outcome: 'again' })
    await rig.say('how long', { ...near, above_dB: 5 })
    expect(rig.sound.spoken).toEqual(['app.again'])
    await rig.pass(1000 * shippedListening.againEvery_s)
    await rig.say('how long', { ...near, above_dB: 5 })
    expect(rig.sound.spoken.filter((key) => key === 'app.again')).toHaveLength(2)
  })

  it('is never asked for again over one of our prompts', async () => {
    // Begun before the prompt, so that it is not the prompt itself.
    rig.speech.partial('how')
    rig.sound.setSpeaking(true)
    await rig.say('how long', { ...near, above_dB: 5 })
    expect(rig.view()?.heard).toMatchObject({ outcome: 'again' })
    expect(rig.sound.spoken).toEqual([])
  })

  it('is answered while held, and by the words that patients do not use', async () => {
    rig.voice.hold('press')
    await rig.pass(1000)
    await rig.say('how long')
    expect(answered()).toBe(true)
    rig.voice.hold('lose')
    rig.sound.spoken.length = 0
    await rig.pass(5000)
    await rig.say('time check')
    expect(answered()).toBe(true)
  })

  it('is answered to anybody once the needle is out', async () => {
    await rig.touch('needleOut')
    rig.sound.spoken.length = 0
    await rig.say('how long')
    expect(answered()).toBe(true)
  })
})
