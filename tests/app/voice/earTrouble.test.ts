import { describe, expect, it } from 'vitest'
import { earTrouble, isQuiet, mayRead } from '../../../src/app/voice/earTrouble.ts'
import { DEFAULT_SETTINGS } from '../../../src/app/site/settings.ts'
import voice from '../../../src/data/en/voice.json'
import { EAR_STATES } from '../../../src/ports/earpiece.ts'

const plain = DEFAULT_SETTINGS
const ear = { ...plain, earId: 'e1', earName: 'Left ear' }
const anyhow = { ...ear, speakWithoutEar: true }
const quietIn = (settings: typeof plain) => EAR_STATES.filter((state) => isQuiet(settings, state))

describe('no word may be heard', () => {
  it('unless the chosen ear is there, or the loudspeaker may speak and it is known that the ear is not', () => {
    expect(quietIn(plain)).toEqual([])
    expect(quietIn(ear)).toEqual(EAR_STATES.filter((state) => state !== 'there'))
    expect(quietIn(anyhow)).toEqual(['finding'])
  })

  it('at all while tones are wanted', () => {
    expect(quietIn({ ...anyhow, tonesOnly: true })).toEqual(EAR_STATES)
  })

  it('from a voice of the browser while an ear is chosen, tones are, or no sound at all', () => {
    expect(mayRead(plain)).toBe(true)
    expect(mayRead(anyhow)).toBe(false)
    expect(mayRead({ ...plain, tonesOnly: true })).toBe(false)
    expect(mayRead({ ...plain, silent: true })).toBe(false)
  })
})

describe('what a person is told of the ear', () => {
  it('is nothing while none is chosen, and nothing while it is there or looked for', () => {
    expect(EAR_STATES.filter((state) => earTrouble(plain, state, voice.ear))).toEqual([])
    const told = EAR_STATES.filter((state) => earTrouble(ear, state, voice.ear))
    expect(told).toEqual(['gone', 'refused', 'unable'])
  })

  it('names it, also where the browser gave no name', () => {
    expect(earTrouble(ear, 'refused', voice.ear)?.what).toContain('(Left ear)')
    expect(earTrouble({ ...ear, earName: '' }, 'gone', voice.ear)?.what).toContain('(no name)')
  })

  it('says what is heard instead', () => {
    expect(earTrouble(ear, 'unable', voice.ear)?.advice).toBe(voice.ear.advice.quiet)
    expect(earTrouble(anyhow, 'unable', voice.ear)?.advice).toBe(voice.ear.advice.spoken)
  })
})
