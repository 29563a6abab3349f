import type { SpeechState, SpeechTrouble } from '../../../ports/speech.ts'
import type { AudioTrouble } from './audioSource.ts'

/** What is known about hearing at a moment. */
export interface HearingFacts {
  readonly wanted: boolean
  /** Another page of the app is listening. */
  readonly elsewhere: boolean
  readonly engine:
    'none' | 'ready' | 'died' | { readonly code: SpeechTrouble; readonly message: string }
  readonly source: 'none' | 'open'
  readonly audio: AudioTrouble | undefined
  readonly loud: boolean
}

export const NOT_HEARING: HearingFacts = {
  wanted: false,
  elsewhere: false,
  engine: 'none',
  source: 'none',
  audio: undefined,
  loud: false,
}

const AUDIO: Record<AudioTrouble, string> = {
  noMicrophone: 'There is no microphone, or it is not allowed.',
  microphoneLost: 'The microphone is gone.',
  microphoneMuted: 'Nothing comes from the microphone: it is muted.',
  audioSuspended: 'The browser holds the sound back until the page is touched.',
}

/** The one thing to tell: what keeps hearing from working for longest comes first. */
export function speechState(facts: HearingFacts): SpeechState {
  if (!facts.wanted) return { kind: 'off' }
  if (facts.elsewhere) {
    return trouble('loadFailed', 'Another page of this app is listening. Close it to listen here.')
  }
  if (typeof facts.engine === 'object') return trouble(facts.engine.code, facts.engine.message)
  if (facts.audio) return trouble(facts.audio, AUDIO[facts.audio])
  if (facts.engine === 'died') {
    return trouble('workerDied', 'The recognizer stopped and is starting again.')
  }
  if (facts.engine === 'none' || facts.source === 'none') return { kind: 'loading' }
  if (facts.loud) return trouble('tooLoud', 'The room is too loud to hear over.')
  return { kind: 'listening' }
}

const trouble = (code: SpeechTrouble, message: string): SpeechState => ({
  kind: 'trouble',
  code,
  message,
})
