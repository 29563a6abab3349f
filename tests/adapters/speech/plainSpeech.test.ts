import { createKeysSpeech } from '../../../src/adapters/speech/keysSpeech.ts'
import { createScriptedSpeech } from '../../../src/adapters/speech/scriptedSpeech.ts'
import { speechContract } from '../../contract/speech.contract.ts'

speechContract('scripted speech', () => {
  let now_ms = 0
  const speech = createScriptedSpeech(() => now_ms)
  return Promise.resolve({
    speech,
    /** Hears like a recognizer: word by word, and what is not open as unknown. */
    say(phrase: string) {
      const words = phrase.split(' ')
      const open = speech.phrases().includes(phrase)
      const texts = open ? words.map((_, i) => words.slice(0, i + 1).join(' ')) : ['[unk]']
      for (const text of texts) {
        now_ms += 300
        speech.partial(text)
      }
      now_ms += 700
      speech.final(open ? phrase : '[unk]')
      return Promise.resolve()
    },
    quiet(length_ms: number) {
      now_ms += length_ms
      return Promise.resolve()
    },
    close: () => Promise.resolve(),
  })
})

speechContract(
  'keys alone',
  () =>
    Promise.resolve({
      speech: createKeysSpeech(),
      say: () => Promise.resolve(),
      quiet: () => Promise.resolve(),
      close: () => Promise.resolve(),
    }),
  true,
)
