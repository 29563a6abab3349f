import { beforeEach, describe, expect, it } from 'vitest'
import { voiceRig, type VoiceRig } from '../../support/voiceRig.ts'

let rig: VoiceRig
beforeEach(async () => {
  rig = await voiceRig()
})

describe('held listening', () => {
  const amid = '[unk] patient confirmed [unk]'
  const hold = async (text: string): Promise<void> => {
    rig.voice.hold('press')
    await rig.pass(1000)
    await rig.say(text)
    rig.voice.hold('release')
  }

  it('lets a phrase act amid talk, and the record says so', async () => {
    await rig.say(amid)
    expect(rig.types()).not.toContain('identifierChecked')
    await hold(amid)
    expect(rig.entries().at(-1)).toMatchObject({
      source: 'voice',
      heard: 'patient confirmed',
      held: true,
    })
  })

  it('leaves no such mark on what was said without it', async () => {
    await rig.say('patient confirmed')
    expect(rig.entries().at(-1)).not.toHaveProperty('held')
  })

  it('is shown at once, with one soft tone, and closed when the key comes up or is lost', async () => {
    rig.voice.hold('press')
    expect(rig.view()?.listening.isHeld).toBe(true)
    await rig.pass(600)
    rig.voice.hold('release')
    expect(rig.view()?.listening.isHeld).toBeUndefined()
    rig.voice.hold('press')
    rig.voice.hold('lose')
    expect(rig.view()?.listening.isHeld).toBeUndefined()
    expect(rig.sound.chimes).toEqual(['earsOpen', 'earsOpen'])
  })

  it('does not say to be open where nothing is heard', async () => {
    await rig.say('pause listening')
    rig.sound.chimes.length = 0
    rig.voice.hold('press')
    expect(rig.view()?.listening.isHeld).toBeUndefined()
    await rig.say('resume listening')
    rig.speech.trouble({ kind: 'trouble', code: 'microphoneLost' })
    rig.voice.hold('press')
    expect(rig.view()?.listening.isHeld).toBeUndefined()
    expect(rig.sound.chimes).not.toContain('earsOpen')
  })

  it('closes when the microphone is lost while it is held', async () => {
    rig.voice.hold('press')
    rig.speech.trouble({ kind: 'trouble', code: 'microphoneLost' })
    await rig.pass(300)
    expect(rig.view()?.listening.isHeld).toBeUndefined()
  })

  it('stays open where the room is too loud: that is what it is for', async () => {
    rig.voice.hold('press')
    rig.speech.trouble({ kind: 'trouble', code: 'tooLoud' })
    await rig.pass(1000)
    expect(rig.view()?.listening).toMatchObject({ isHeld: true, state: { code: 'tooLoud' } })
    expect(rig.sound.spoken).toEqual([])
    await rig.say(amid)
    expect(rig.types()).toContain('identifierChecked')
    rig.voice.hold('release')
    rig.voice.hold('press')
    expect(rig.view()?.listening.isHeld).toBe(true)
  })

  it('is not required of the words that end a pause, in which nothing can be held open', async () => {
    rig.set({ heldRequired: true })
    await hold('pause listening')
    expect(rig.view()?.listening.state.kind).toBe('paused')
    await rig.pass(2000)
    await rig.say('resume listening')
    expect(rig.view()?.listening.state.kind).toBe('listening')
    await rig.say('patient confirmed')
    expect(rig.types()).not.toContain('identifierChecked')
  })

  it('is required from the moment on in which another page says so, as the screen has it', async () => {
    rig.set({ heldRequired: true })
    await rig.say('patient confirmed')
    expect(rig.types()).not.toContain('identifierChecked')
    rig.set({ heldRequired: false })
    await rig.say('patient confirmed')
    expect(rig.types()).toContain('identifierChecked')
  })

  it('may be required: then nothing else acts, but for what stops', async () => {
    rig = await voiceRig({ heldRequired: true })
    await rig.say('patient confirmed')
    expect(rig.types()).not.toContain('identifierChecked')
    expect(rig.view()?.heard).toMatchObject({ text: 'patient confirmed', outcome: 'refused' })
    expect(rig.sound.chimes).toEqual([])
    await hold('patient confirmed')
    expect(rig.types()).toContain('identifierChecked')
    await rig.say('feeling faint')
    expect(rig.types()).toContain('exceptionRaised')
  })
})
