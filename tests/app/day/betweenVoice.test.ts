import { beforeEach, describe, expect, it } from 'vitest'
import {
  createScriptedSpeech,
  type ScriptedSpeech,
} from '../../../src/adapters/speech/scriptedSpeech.ts'
import {
  createSimulatedClock,
  type SimulatedClock,
} from '../../../src/adapters/time/simulatedClock.ts'
import { betweenPhrases } from '../../../src/app/day/betweenPhrases.ts'
import {
  createBetweenVoice,
  type BetweenActs,
  type BetweenVoice,
  type SaidBack,
} from '../../../src/app/day/betweenVoice.ts'
import {
  BETWEEN_COMMANDS,
  PACK_COMMANDS,
  type BetweenCommand,
} from '../../../src/core/voice/betweenCommands.ts'
import type { BetweenView } from '../../../src/app/view/betweenView.ts'
import book from '../../../src/data/en/betweenPhrases.json' with { type: 'json' }
import prompts from '../../../src/data/en/prompts.json' with { type: 'json' }
import voiceTexts from '../../../src/data/en/voice.json' with { type: 'json' }
import { fakeReader, type FakeReader } from '../../support/fakeReader.ts'
import { fakeSound, type FakeSound } from '../../support/fakeSound.ts'

let clock: SimulatedClock
let sound: FakeSound
let speeches: ScriptedSpeech[]
let done: BetweenCommand[]
let reader: FakeReader
let answer: SaidBack
const PHRASES = betweenPhrases(book, false)
const COUNTING = betweenPhrases(book, true)
let gate: Promise<void>
let view: BetweenView | undefined
let voice: BetweenVoice
let onView: ((view: BetweenView | undefined) => void) | undefined

const settle = () => new Promise((resolve) => setImmediate(resolve))
const say = async (text: string): Promise<void> => {
  speeches.at(-1)?.final(text)
  clock.advance(300)
  await settle()
}

beforeEach(() => {
  clock = createSimulatedClock({ boot: 'boot', wall_ms: 0, mono_ms: 0, offset_min: 0 })
  sound = fakeSound()
  speeches = []
  done = []
  reader = fakeReader()
  answer = { prompts: [] }
  gate = Promise.resolve()
  view = undefined
  onView = undefined
  const acts = Object.fromEntries(
    BETWEEN_COMMANDS.map((key) => [
      key,
      async () => {
        done.push(key)
        await gate
        return answer
      },
    ]),
  ) as unknown as BetweenActs
  voice = createBetweenVoice({
    clock,
    sound,
    reader,
    makeSpeech: () => {
      const speech = createScriptedSpeech(() => clock.read().mono_ms)
      speeches.push(speech)
      return speech
    },
    texts: voiceTexts,
    prompts,
    acts,
    onView: (next) => {
      view = next
      onView?.(next)
    },
  })
})

describe('hearing between patients', () => {
  it('shows what it answers, until the next thing is heard', async () => {
    answer = { prompts: ['day.waiting.2', 'day.next.stat'] }
    voice.listen(PHRASES)
    await say('read the list')
    expect(view?.answered).toBe('Two waiting. Next is stat.')
    answer = { prompts: ['day.nobody'] }
    let during: string | undefined = 'unset'
    onView = (next) => {
      if (done.length === 1) during = next?.answered
    }
    await say('next patient')
    expect(during).toBeUndefined()
    expect(view?.answered).toBe('Nobody is waiting.')
  })

  it('acts on every wording of every command', async () => {
    voice.listen(COUNTING)
    for (const key of BETWEEN_COMMANDS) for (const phrase of book.phrases[key]) await say(phrase)
    expect(done).toEqual(BETWEEN_COMMANDS.flatMap((key) => book.phrases[key].map(() => key)))
  })

  it('hears of a pack where packs are counted, and nowhere else, with the ears that are open', async () => {
    voice.listen(PHRASES)
    for (const key of PACK_COMMANDS) for (const phrase of book.phrases[key]) await say(phrase)
    expect(done).toEqual([])
    voice.listen(COUNTING)
    for (const key of PACK_COMMANDS) for (const phrase of book.phrases[key]) await say(phrase)
    expect(done).toEqual([...PACK_COMMANDS].flatMap((key) => [key, key]))
    expect(speeches).toHaveLength(1)
    voice.listen(PHRASES)
    await say(book.phrases.packComplete[0] ?? '')
    expect(done).toHaveLength(2 * PACK_COMMANDS.size)
  })

  it('waits until a person has finished', async () => {
    voice.listen(PHRASES)
    speeches[0]?.partial('next patient')
    clock.advance(10_000)
    await settle()
    expect(done).toEqual([])
  })

  it('takes nothing out of the talk of the room', async () => {
    voice.listen(PHRASES)
    await say('[unk] next patient [unk]')
    await say('the next patient is late')
    expect(done).toEqual([])
  })

  it('answers by recorded words, then by names', async () => {
    answer = { prompts: ['day.next.stat'], read: 'Robin Testwell' }
    voice.listen(PHRASES)
    await say('next patient')
    expect(sound.spoken).toEqual(['day.next.stat'])
    expect(reader.texts).toEqual(['Robin Testwell'])
    expect(view?.heard).toMatchObject({ text: 'next patient', outcome: 'accepted' })
  })

  it('does not hear itself, neither a prompt nor a name', async () => {
    voice.listen(PHRASES)
    reader.setReading(true)
    await say('next patient')
    reader.setReading(false)
    sound.setSpeaking(true)
    await say('read the list')
    sound.setSpeaking(false)
    expect(done).toEqual([])
    await say('spin done')
    expect(done).toEqual(['spinEnded'])
  })

  it('does one act at a time', async () => {
    let open = (): void => undefined
    gate = new Promise((resolve) => (open = resolve))
    voice.listen(PHRASES)
    await say('spin done')
    await say('spin done')
    expect(done).toEqual(['spinEnded'])
    expect(view?.heard?.outcome).toBe('refused')
    open()
    await settle()
    await say('tubes stored')
    expect(done).toEqual(['spinEnded', 'stored'])
  })

  it('begins once and is silent after its end, also for what was still being written', async () => {
    let open = (): void => undefined
    gate = new Promise((resolve) => (open = resolve))
    answer = { prompts: ['day.next.stat'], read: 'Robin Testwell' }
    voice.listen(PHRASES)
    voice.listen(PHRASES)
    expect(speeches).toHaveLength(1)
    await say('next patient')
    voice.listen(undefined)
    open()
    await settle()
    expect(sound.spoken).toEqual([])
    expect(reader.texts).toEqual([])
    expect(view).toBeUndefined()
  })

  it('opens one ear although who sees it open asks for it once more', () => {
    onView = (next) => {
      if (next) voice.listen(PHRASES)
    }
    voice.listen(PHRASES)
    expect(speeches).toHaveLength(1)
    voice.listen(undefined)
    expect(view).toBeUndefined()
  })

  it('tells why it does not hear', () => {
    voice.listen(PHRASES)
    speeches[0]?.trouble({ kind: 'trouble', code: 'notAllowed' })
    expect(view?.listening.advice).toContain(voiceTexts.trouble.notAllowed.what)
  })
})
