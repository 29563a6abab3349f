import { readFileSync } from 'node:fs'
import { describe, expect, it, vi } from 'vitest'
import { createPhraseTrial } from '../../../src/app/voice/phraseTrial.ts'
import type { Words } from '../../../src/app/site/words.ts'
import book from '../../../src/data/en/phrases.json'
import voiceTexts from '../../../src/data/en/voice.json'
import words from '../../../src/data/en/words.json'

const shipped: Words = words
const text = readFileSync('public/lexicon.en.txt', 'utf8')
const trial = () => createPhraseTrial(book, shipped, voiceTexts, () => Promise.resolve(text))

describe('phraseTrial', () => {
  it('has nothing to tell of a good wording, however it is typed', async () => {
    expect(await trial().tryPhrase('bandageOn', '  Cotton  Applied ')).toEqual([])
  })

  it('names what a wording clashes with', async () => {
    const notes = await trial().tryPhrase('tubeOn', 'tube done')
    expect(notes[0]).toMatchObject({ weight: 'error' })
    expect(notes[0]?.text).toContain('"tubes done" (lastTube)')
  })

  it('reads the word list once, and again after it could not be read', async () => {
    const load = vi.fn(() => Promise.resolve(text))
    load.mockImplementationOnce(() => Promise.reject(new Error('offline')))
    const { tryPhrase } = createPhraseTrial(book, shipped, voiceTexts, load)
    expect(await tryPhrase('needleIn', 'needle placed')).toEqual([
      { weight: 'error', text: 'The word list cannot be loaded.' },
    ])
    await tryPhrase('needleIn', 'needle placed')
    await tryPhrase('needleIn', 'needle is placed')
    expect(load).toHaveBeenCalledTimes(2)
  })
})
