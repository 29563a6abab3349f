import { defined } from '../../core/basics/defined.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { SAFETY_COMMANDS } from '../../core/protocol/commandTable.ts'
import { needleIsIn } from '../../core/protocol/facts.ts'
import { openCommands, commandOf } from '../../core/protocol/openCommands.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { stampAfter } from '../../core/time/stamp.ts'
import type { HeldMove } from '../../core/voice/heldEars.ts'
import type { HearOutcome } from '../../core/voice/hearing.ts'
import { drawRules } from '../../core/voice/hearRules.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Sound } from '../../ports/sound.ts'
import type { Speech, SpeechState } from '../../ports/speech.ts'
import type { DrawChannel } from './drawChannel.ts'
import { createHeldListening } from '../voice/heldListening.ts'
import { openPhrases } from '../voice/openPhrases.ts'
import { createPhraseEar } from '../voice/phraseEar.ts'
import type { ListeningLimits } from '../site/listeningLimits.ts'
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
  /** As they are now: another page may change them. */
  readonly settings: () => Settings
  readonly listening: ListeningLimits
  readonly draw: DrawChannel
}

/** Ears of one draw: opens the phrases of the moment and turns what is heard into commands. */
export interface VoiceControl {
  start(): Promise<void>
  stop(): Promise<void>
  /** The draw moved on, or a question was asked or answered. */
  moved(): void
  setPaused(paused: boolean): void
  /** The key, the pedal or the bar that holds the ears open goes down or up, or is lost. */
  hold(move: HeldMove): void
  /** Somebody is in the middle of saying something. */
  hearing(): boolean
}

type Accepted = Extract<HearOutcome, { kind: 'accept' }>

export function createVoiceControl(deps: VoiceControlDeps): VoiceControl {
  const { clock, draw, phrases, voiceTexts, settings, listening } = deps
  const { held: heldLimits, againEvery_s } = listening
  const speech = deps.makeSpeech(settings())
  let paused = false
  let level = 0
  let speechState: SpeechState = { kind: 'off' }
  let early: EarlyAct | undefined
  let isSpeaking = false
  let askedAgain_ms = -Infinity
  const asked: ReadonlySet<string> = new Set(voiceTexts.askedByPatients)

  const ear = createPhraseEar({
    speech,
    clock,
    actAtOnce: SAFETY_COMMANDS,
    rules: drawRules(listening),
    // While paused nothing can be held open, and only what ends the pause is heard besides what stops.
    heldRequired: () => settings().heldRequired && !paused,
    onOutcome: (outcome) => void carryOut(outcome),
  })
  let wasOpen = false
  const held = createHeldListening({
    clock,
    limits: heldLimits,
    onChange: (isOpen, span) => {
      ear.setHeld(span)
      if (isOpen && !wasOpen) deps.sound.chime('earsOpen')
      if (isOpen !== wasOpen) show(true)
      wasOpen = isOpen
    },
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

  function show(atOnce = false): void {
    const shown: SpeechState =
      paused && speechState.kind === 'listening' ? { kind: 'paused' } : speechState
    const advice = adviceFor(shown)
    const isHeld = held.isOpen() ? true : undefined
    draw.showListening(defined({ state: shown, level, advice, isHeld }), atOnce)
  }

  function moved(): void {
    const s = draw.session.state()
    const at = stampAfter(s.last.at, clock.read())
    const open = openPhrases(openCommands(s, at), phrases, { asking: draw.asking(), paused })
    // The patient asks it as well, and an answer about the band would be one about the needle.
    ear.open(open, needleIsIn(s) ? asked : undefined)
  }

  async function act(accepted: Accepted): Promise<EarlyAct | undefined> {
    const { key, phrase, held: wasHeld } = accepted
    const before = draw.session.log().entries.length
    const { tonesOnly } = settings()
    const wasSo = key === 'tonesOnly' ? tonesOnly : key === 'wordsAgain' && !tonesOnly
    await draw.dispatch(commandOf(key), 'voice', phrase, wasHeld)
    const entries = draw.session.log().entries.length
    const left = entries > before || draw.asking() !== undefined
    return accepted.early ? { key, entries, left, wasSo } : undefined
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
        if (isTold(outcome.why)) deps.sound.chime('notUnderstood')
        return
      case 'again':
        draw.showHeard({ text: outcome.phrase, outcome: 'again', at_ms })
        askAgain(at_ms)
        return
      case 'unclear':
        draw.showHeard({ text: outcome.text, outcome: 'unclear', at_ms })
        deps.sound.chime('notUnderstood')
    }
  }

  /** Asks for a phrase once more, with a tone and a word; never over a prompt, and not at each word of a talk. */
  function askAgain(at_ms: number): void {
    if (isSpeaking || at_ms - askedAgain_ms < 1000 * againEvery_s) return
    askedAgain_ms = at_ms
    deps.sound.chime('notUnderstood')
    deps.sound.speak('app.again')
  }

  const ends = [
    speech.onLevel((next) => {
      level = next
      show()
    }),
    speech.onState((next) => {
      // Over words that were meant to be heard in a loud room nothing is said of the room.
      const isHeldOpen = held.isOpen() && hears(next)
      if (next.kind === 'trouble' && speechState.kind === 'listening' && !isHeldOpen)
        deps.sound.speak('app.deaf')
      speechState = next
      if (!hears(next)) held.move('lose')
      show()
    }),
    deps.sound.onSpeaking((speaking) => {
      isSpeaking = speaking
      ear.setSpeaking(speaking)
    }),
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
      held.stop()
      ends.forEach((end) => end())
      await speech.stop()
    },
    setPaused(next) {
      paused = next
      if (paused) held.move('lose')
      show()
      moved()
    },
    hold: (move) => {
      // Open is only what hears.
      const canHear = hears(speechState) && !paused
      held.move(canHear || move !== 'press' ? move : 'lose')
    },
  }
}

/** A room that is too loud is told of and heard all the same: it is what the ears are held open for. */
const hears = (state: SpeechState): boolean =>
  state.kind === 'listening' || (state.kind === 'trouble' && state.code === 'tooLoud')

/** What talk in the room may have been is shown, and no tone is made of it. */
const isTold = (why: Extract<HearOutcome, { kind: 'refuse' }>['why']): boolean =>
  why === 'tooSoft' || why === 'unsure'
