import { defined } from '../../core/basics/defined.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { SAFETY_COMMANDS } from '../../core/protocol/commandTable.ts'
import { openCommands, commandOf } from '../../core/protocol/openCommands.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { stampAfter } from '../../core/time/stamp.ts'
import type { HearOutcome } from '../../core/voice/hearing.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Sound } from '../../ports/sound.ts'
import type { Speech, SpeechState } from '../../ports/speech.ts'
import type { DrawChannel } from './drawChannel.ts'
import { openPhrases } from '../voice/openPhrases.ts'
import { createPhraseEar } from '../voice/phraseEar.ts'
import type { PhraseBook } from '../site/phraseBook.ts'
import type { VoiceTexts } from '../site/voiceTexts.ts'
import type { Settings } from '../site/settings.ts'
import { heardWords, takeBack, type EarlyAct } from './takeBack.ts'

/** Makes the recognizer that the settings ask for. */
export type SpeechMaker = (settings: Settings) => Speech

export interface VoiceControlDeps {
  readonly clock: Clock
  readonly sound: Sound
  readonly phrases: PhraseBook
  /** The same in the order of the person who draws now; without it in the site's. */
  readonly phrasesFor?: (s: DrawState) => PhraseBook
  readonly voiceTexts: VoiceTexts
  readonly makeSpeech: SpeechMaker
  readonly settings: Settings
  readonly draw: DrawChannel
}

/** Ears of one draw: opens the phrases of the moment and turns what is heard into commands. */
export interface VoiceControl {
  start(): Promise<void>
  stop(): Promise<void>
  /** The draw moved on, or a question was asked or answered. */
  moved(): void
  setPaused(paused: boolean): void
  /** Somebody is in the middle of saying something. */
  hearing(): boolean
}

type Accepted = Extract<HearOutcome, { kind: 'accept' }>

export function createVoiceControl(deps: VoiceControlDeps): VoiceControl {
  const { clock, draw, phrases, voiceTexts } = deps
  const speech = deps.makeSpeech(deps.settings)
  let paused = false
  let level = 0
  let speechState: SpeechState = { kind: 'off' }
  let early: EarlyAct | undefined

  const ear = createPhraseEar({
    speech,
    clock,
    actAtOnce: SAFETY_COMMANDS,
    onOutcome: (outcome) => void carryOut(outcome),
  })

  /** What is wrong and what to do about it, or what is still heard. */
  const adviceFor = (state: SpeechState): string | undefined => {
    const own = deps.phrasesFor?.(draw.session.state()) ?? phrases
    const phrase = own.phrases.resumeListening?.[0] ?? ''
    if (state.kind === 'paused') return fillText(voiceTexts.paused, { phrase })
    if (state.kind !== 'trouble') return undefined
    const { what, advice } = voiceTexts.trouble[state.code]
    return `${what} ${advice}`
  }

  const show = (): void => {
    const shown: SpeechState =
      paused && speechState.kind === 'listening' ? { kind: 'paused' } : speechState
    draw.showListening(defined({ state: shown, level, advice: adviceFor(shown) }))
  }

  function moved(): void {
    const s = draw.session.state()
    const at = stampAfter(s.last.at, clock.read())
    ear.open(openPhrases(openCommands(s, at), phrases, { asking: draw.asking(), paused }))
  }

  async function act(accepted: Accepted): Promise<EarlyAct | undefined> {
    const { key, phrase } = accepted
    const before = draw.session.log().entries.length
    await draw.dispatch(commandOf(key), 'voice', phrase)
    const entries = draw.session.log().entries.length
    const left = entries > before || draw.asking() !== undefined
    return accepted.early ? { key, entries, left } : undefined
  }

  async function carryOut(outcome: HearOutcome): Promise<void> {
    const at_ms = clock.read().mono_ms
    switch (outcome.kind) {
      case 'accept':
        draw.showHeard({ text: outcome.phrase, outcome: 'accepted', at_ms })
        early = await act(outcome)
        return
      case 'undo':
        draw.showHeard({ text: heardWords(outcome.instead), outcome: 'unclear', at_ms })
        await takeBack(draw, outcome, early, voiceTexts)
        return
      case 'refuse':
        draw.showHeard({ text: outcome.phrase, outcome: 'refused', at_ms })
        if (outcome.why !== 'speaking') deps.sound.chime('notUnderstood')
        return
      case 'unclear':
        draw.showHeard({ text: outcome.text, outcome: 'unclear', at_ms })
        deps.sound.chime('notUnderstood')
    }
  }

  const ends = [
    speech.onLevel((next) => {
      level = next
      show()
    }),
    speech.onState((next) => {
      if (next.kind === 'trouble' && speechState.kind === 'listening') deps.sound.speak('app.deaf')
      speechState = next
      show()
    }),
    deps.sound.onSpeaking((speaking) => ear.setSpeaking(speaking)),
  ]

  return {
    moved,
    hearing: () => ear.isHearing(),
    start: async () => {
      moved()
      await speech.start()
    },
    stop: async () => {
      ear.end()
      ends.forEach((end) => end())
      await speech.stop()
    },
    setPaused(next) {
      paused = next
      show()
      moved()
    },
  }
}
