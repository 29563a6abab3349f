import { defined } from '../../core/basics/defined.ts'
import type { BetweenCommand } from '../../core/voice/betweenCommands.ts'
import type { HearOutcome } from '../../core/voice/hearing.ts'
import { HEAR_RULES, type HearRules } from '../../core/voice/hearRules.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Reader } from '../../ports/reader.ts'
import type { Sound } from '../../ports/sound.ts'
import type { Speech, SpeechState } from '../../ports/speech.ts'
import { createPrompter } from '../draw/prompter.ts'
import type { BetweenView } from '../view/betweenView.ts'
import type { HeardView } from '../view/drawViewTypes.ts'
import { shownPrompt } from '../view/promptKeys.ts'
import type { VoiceTexts } from '../site/voiceTexts.ts'
import type { Prompts } from '../site/words.ts'
import { createPhraseEar } from '../voice/phraseEar.ts'

/** What is said in answer to a phrase. */
export interface SaidBack {
  /** Recorded prompts, one after the other. */
  readonly prompts: readonly string[]
  /** Read behind them where somebody switched that on and this machine has a voice for it. */
  readonly read?: string
}

/** What each phrase brings about. */
export type BetweenActs = Readonly<Record<BetweenCommand, () => Promise<SaidBack>>>

export interface BetweenVoiceDeps {
  readonly clock: Clock
  readonly sound: Sound
  readonly reader: Reader
  readonly makeSpeech: () => Speech
  readonly texts: VoiceTexts
  readonly prompts: Prompts
  /** No word is heard now. */
  readonly isQuiet?: (() => boolean) | undefined
  readonly acts: BetweenActs
  readonly onView: (view: BetweenView | undefined) => void
}

interface Run {
  readonly open: (phrases: ReadonlyMap<string, BetweenCommand>) => void
  end(): void
}

/** Ears between patients and at the bench, where no draw runs on this page. */
export interface BetweenVoice {
  /** Listens for these from now on; for none no longer. */
  listen(phrases: ReadonlyMap<string, BetweenCommand> | undefined): void
}

/**
 * Nothing is so urgent here that it must be done before a person has finished: only a final result acts, so that talk
 * in the room has to be a phrase word for word, and alone.
 */
const FINAL_ONLY: HearRules = {
  ...HEAR_RULES,
  quiet_ms: Infinity,
  hold_ms: Infinity,
  holdWithin_ms: Infinity,
}

export function createBetweenVoice(deps: BetweenVoiceDeps): BetweenVoice {
  let wanted: ReadonlyMap<string, BetweenCommand> | undefined
  let run: Run | undefined

  function begin(phrases: ReadonlyMap<string, BetweenCommand>): Run {
    const { clock, sound, reader } = deps
    const speech = deps.makeSpeech()
    let state: SpeechState = { kind: 'off' }
    let level = 0
    let heard: HeardView | undefined
    let answered: string | undefined
    let ended = false
    let busy = false

    const prompter = createPrompter({
      clock,
      sound,
      isHearing: () => ear.isHearing(),
      isQuiet: deps.isQuiet,
      spoken: (key) => key,
    })
    const ear = createPhraseEar<BetweenCommand>({
      speech,
      clock,
      actAtOnce: [],
      rules: FINAL_ONLY,
      onOutcome: (outcome) => void carryOut(outcome),
    })

    const adviceFor = (): string | undefined => {
      if (state.kind !== 'trouble') return undefined
      const { what, advice } = deps.texts.trouble[state.code]
      return `${what} ${advice}`
    }
    const show = (): void => {
      if (ended) return
      deps.onView(
        defined({ listening: defined({ state, level, advice: adviceFor() }), heard, answered }),
      )
    }
    const showHeard = (text: string, outcome: HeardView['outcome']): void => {
      heard = { text, outcome, at_ms: clock.read().mono_ms }
      answered = undefined
      show()
    }

    async function carryOut(outcome: HearOutcome<BetweenCommand>): Promise<void> {
      switch (outcome.kind) {
        case 'accept': {
          // One act at a time: what is said while the last one is still written would be about another state.
          if (busy) return showHeard(outcome.phrase, 'refused')
          busy = true
          showHeard(outcome.phrase, 'accepted')
          sound.chime('heard')
          const said = await deps.acts[outcome.key]().finally(() => (busy = false))
          if (ended) return
          answered = said.prompts.map((key) => shownPrompt(key, deps.prompts)).join(' ')
          show()
          prompter.say(...said.prompts)
          if (said.read !== undefined) reader.read(said.read)
          return
        }
        case 'refuse':
          showHeard(outcome.phrase, 'refused')
          if (outcome.why !== 'speaking') sound.chime('notUnderstood')
          return
        case 'unclear':
          // People talk between patients: half a phrase is shown and does not sound.
          showHeard(outcome.text, 'unclear')
          return
        // Nothing is acted on here that could be taken back, and nothing amid talk.
        case 'undo':
        case 'again':
          return
      }
    }

    let prompting = false
    let reading = false
    const gate = (): void => ear.setSpeaking(prompting || reading)
    const ends = [
      speech.onLevel((next) => {
        level = next
        show()
      }),
      speech.onState((next) => {
        state = next
        show()
      }),
      sound.onSpeaking((speaking) => {
        prompting = speaking
        gate()
      }),
      reader.onReading((now) => {
        reading = now
        gate()
      }),
    ]
    ear.open(phrases)
    void speech.start()
    return {
      open: (next) => ear.open(next),
      end() {
        ended = true
        prompter.stop()
        reader.stop()
        ear.end()
        ends.forEach((each) => each())
        void speech.stop()
        deps.onView(undefined)
      },
    }
  }

  return {
    listen(phrases) {
      if (phrases === wanted) return
      const isOpen = run !== undefined
      // Ears that open tell so at once, and whoever is told may ask again whether they are to be open.
      wanted = phrases
      if (phrases && isOpen) {
        run?.open(phrases)
        return
      }
      const before = run
      run = undefined
      before?.end()
      if (phrases) run = begin(phrases)
    },
  }
}
