import { defined } from '../../../core/basics/defined.ts'
import type { SpeechState, SpeechTrouble } from '../../../ports/speech.ts'
import type { EngineStatus } from './engineSupervisor.ts'
import type { AudioTrouble } from './audioSource.ts'

/** What is known about hearing at a moment. */
export interface HearingFacts {
  readonly wanted: boolean
  /** Another page of the app is listening. */
  readonly elsewhere: boolean
  readonly engine: EngineStatus
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

/** The one thing to tell: what keeps hearing from working for longest comes first. */
export function speechState(facts: HearingFacts): SpeechState {
  if (!facts.wanted) return { kind: 'off' }
  if (facts.elsewhere) return trouble('elsewhere')
  if (typeof facts.engine === 'object') return trouble(facts.engine.code, facts.engine.detail)
  if (facts.audio) return trouble(facts.audio)
  if (facts.engine === 'died') return trouble('workerDied')
  if (facts.engine === 'none' || facts.source === 'none') return { kind: 'loading' }
  if (facts.loud) return trouble('tooLoud')
  return { kind: 'listening' }
}

const trouble = (code: SpeechTrouble, detail?: string): SpeechState =>
  defined({ kind: 'trouble' as const, code, detail })
