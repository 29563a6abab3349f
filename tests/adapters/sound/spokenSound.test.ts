import { beforeEach, describe, expect, it } from 'vitest'
import { createSpokenSound } from '../../../src/adapters/sound/spokenSound.ts'
import type { Sound, SoundTrouble } from '../../../src/ports/sound.ts'
import { createEmitter } from '../../../src/core/basics/emitter.ts'
import { fakeReader, type FakeReader } from '../../support/fakeReader.ts'

interface Recorded extends Sound {
  readonly done: string[]
  setSpeaking(is: boolean): void
  setTrouble(trouble: SoundTrouble | undefined): void
}

function recordedSound(): Recorded {
  const speaking = createEmitter<boolean>()
  const troubles = createEmitter<SoundTrouble | undefined>()
  const done: string[] = []
  return {
    done,
    chime: (name) => void done.push(`chime ${name}`),
    speak: (key) => void done.push(`speak ${key}`),
    hush: () => void done.push('hush'),
    setVolume: (volume) => void done.push(`volume ${volume}`),
    setSilent: (silent) => void done.push(`silent ${silent}`),
    setVoice: (voice) => void done.push(`voice ${voice}`),
    test: () => Promise.resolve('played'),
    onSpeaking: speaking.observe,
    onTrouble: troubles.observe,
    setSpeaking: speaking.emit,
    setTrouble: troubles.emit,
  }
}

describe('prompts in the language of the page', () => {
  let recorded: Recorded
  let reader: FakeReader
  let patient: FakeReader
  const textOf = (key: string) => (key === 'step.band' ? 'Banda puesta.' : undefined)
  const make = (voices: readonly string[]): Sound =>
    createSpokenSound({ recorded, voices, reader, others: [patient], textOf })

  beforeEach(() => {
    recorded = recordedSound()
    reader = fakeReader()
    patient = fakeReader()
  })

  it('are the recordings where there are some', () => {
    make(['af_heart']).speak('step.band')
    expect(recorded.done).toEqual(['speak step.band'])
    expect(reader.texts).toEqual([])
  })

  it('are read by the browser where there are none', () => {
    const sound = make([])
    sound.speak('step.band')
    sound.chime('heard')
    expect(reader.texts).toEqual(['Banda puesta.'])
    expect(recorded.done).toEqual(['hush', 'chime heard'])
  })

  it('are not read while sound is off', () => {
    const sound = make([])
    sound.setSilent(true)
    sound.speak('step.band')
    expect(reader.texts).toEqual([])
  })

  it('take the first voice of the language where the chosen one speaks another', () => {
    const sound = make(['ef_dora'])
    sound.setVoice?.('af_heart')
    sound.setVoice?.('ef_dora')
    expect(recorded.done).toEqual(['voice ef_dora', 'voice ef_dora'])
  })

  it('close the gate of the recognizer, whoever speaks, until the last has ended', () => {
    const told: boolean[] = []
    make([]).onSpeaking((is) => told.push(is))
    reader.setReading(true)
    patient.setReading(true)
    recorded.setSpeaking(true)
    reader.setReading(false)
    recorded.setSpeaking(false)
    expect(told).toEqual([true])
    patient.setReading(false)
    expect(told).toEqual([true, false])
  })

  it('tell that they are missing where nobody can speak, and graver trouble first', () => {
    const told: (string | undefined)[] = []
    const mute = { ...reader, isThere: () => false }
    const sound = createSpokenSound({ recorded, voices: [], reader: mute, textOf })
    sound.onTrouble((trouble) => told.push(trouble?.code))
    sound.speak('step.band')
    sound.speak('step.band')
    recorded.setTrouble({ code: 'heldBack' })
    recorded.setTrouble(undefined)
    expect(told).toEqual(['promptsMissing', 'heldBack', 'promptsMissing'])
  })
})
