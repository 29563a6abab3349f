import { createScriptedSpeech } from '../../src/adapters/speech/scriptedSpeech.ts'
import { createMemoryLogStore } from '../../src/adapters/storage/memory.ts'
import { createSimulatedClock } from '../../src/adapters/time/simulatedClock.ts'
import { createDrawLogs } from '../../src/app/draw/drawLogs.ts'
import { openDrawRunner } from '../../src/app/draw/drawRunner.ts'
import { createVoiceControl, type VoiceControl } from '../../src/app/draw/voiceControl.ts'
import { DEFAULT_SETTINGS, type Settings } from '../../src/app/site/settings.ts'
import type { DrawView } from '../../src/app/view/drawViewTypes.ts'
import type { PlainCommand } from '../../src/core/protocol/commands.ts'
import phrases from '../../src/data/en/phrases.json' with { type: 'json' }
import prompts from '../../src/data/en/prompts.json' with { type: 'json' }
import storageTexts from '../../src/data/en/storage.json' with { type: 'json' }
import { texts } from '../../src/data/en/texts.ts'
import words from '../../src/data/en/words.json' with { type: 'json' }
import type { Hearing } from '../../src/ports/speech.ts'
import { fakeSound } from './fakeSound.ts'
import { sampleOpening, SAMPLE_START_ms, sha256 } from './sampleLog.ts'
import { samplePlan, sampleTube } from './samplePlan.ts'
import { shippedListening } from './shippedListening.ts'

/** A draw of one tube with its ears on what is scripted, in simulated time. */
export async function voiceRig(settings: Partial<Settings> = {}) {
  const clock = createSimulatedClock({
    wall_ms: SAMPLE_START_ms,
    mono_ms: 1000,
    boot: 'first',
    offset_min: 60,
  })
  const sound = fakeSound()
  const speech = createScriptedSpeech(() => clock.read().mono_ms)
  const ears: { voice?: VoiceControl } = {}
  let now: Settings = { ...DEFAULT_SETTINGS, ...settings }
  let view: DrawView | undefined
  const runner = await openDrawRunner(
    {
      clock,
      logs: createDrawLogs({ clock, logStore: createMemoryLogStore(sha256), sha256, storageTexts }),
      storageTexts,
      sound,
      sha256,
      words,
      prompts,
      phrases,
      testName: (code) => code,
      shortTestName: (code) => code,
      texts,
      onView: (next) => (view = next),
      onMoved: () => ears.voice?.moved(),
      onListening: (wanted) => ears.voice?.setPaused(!wanted),
      onPrintLabels: () => undefined,
      isDiscreet: () => false,
      isQuiet: () => false,
      isTonesOnly: () => now.tonesOnly,
      onTones: (tonesOnly) => (now = { ...now, tonesOnly }),
      isHearing: () => ears.voice?.hearing() ?? false,
    },
    sampleOpening({ plan: samplePlan([sampleTube('t1', 'edtaK2')]) }),
  )
  const voice = createVoiceControl({
    clock,
    sound,
    phrases,
    voiceTexts: texts.voice,
    makeSpeech: () => speech,
    settings: () => now,
    listening: shippedListening,
    draw: runner,
  })
  ears.voice = voice
  await voice.start()
  sound.chimes.length = 0
  sound.spoken.length = 0

  /** Lets time pass and everything that it woke run. */
  const pass = async (by_ms: number): Promise<void> => {
    clock.advance(by_ms)
    await new Promise((done) => setImmediate(done))
  }
  const entries = () => runner.session.log().entries
  return {
    clock,
    sound,
    speech,
    runner,
    voice,
    view: () => view,
    pass,
    entries,
    settings: () => now,
    /** Somebody changes a setting, on this page or on another one. */
    set: (change: Partial<Settings>) => void (now = { ...now, ...change }),
    types: (): string[] => entries().map(({ event }) => event.type),
    /** Says a phrase; the final result alone is heard. */
    async say(text: string, more: Partial<Hearing> = {}): Promise<void> {
      speech.final(text, more)
      await pass(250)
    },
    async touch(...commands: PlainCommand[]): Promise<void> {
      for (const type of commands) await runner.dispatch({ type }, 'touch')
    },
  }
}

export type VoiceRig = Awaited<ReturnType<typeof voiceRig>>
