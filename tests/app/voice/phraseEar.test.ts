import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import {
  createScriptedSpeech,
  type ScriptedSpeech,
} from '../../../src/adapters/speech/scriptedSpeech.ts'
import {
  createSimulatedClock,
  type SimulatedClock,
} from '../../../src/adapters/time/simulatedClock.ts'
import { createPhraseEar, type PhraseEar } from '../../../src/app/voice/phraseEar.ts'
import type { CommandKey } from '../../../src/core/protocol/commands.ts'
import type { HearOutcome } from '../../../src/core/voice/hearing.ts'
import { HEAR_RULES } from '../../../src/core/voice/hearRules.ts'

const ROOT = join(import.meta.dirname, '../../..')

/** Every source file below these folders that has this text in it, from the root. */
const filesWith = (text: string, ...folders: readonly string[]): readonly string[] =>
  folders
    .flatMap((folder) =>
      readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
        .map((entry) => relative(ROOT, join(entry.parentPath, entry.name))),
    )
    .filter((file) => readFileSync(join(ROOT, file), 'utf8').includes(text))
    .sort()

describe('hearing', () => {
  it('goes through one loop in the draw, the microphone check and the measurements', () => {
    expect(filesWith('voice/hear.ts', 'src', 'scripts', 'tests/measure', 'tests/bench')).toEqual([
      'src/app/voice/phraseEar.ts',
    ])
    expect(filesWith('createPhraseEar(', 'src', 'tests/measure')).toEqual([
      'src/app/draw/voiceControl.ts',
      'src/app/voice/micCheck.ts',
      'tests/measure/page.ts',
    ])
  })
})

describe('an ear for phrases', () => {
  let clock: SimulatedClock
  let speech: ScriptedSpeech
  let ear: PhraseEar
  let outcomes: (readonly [outcome: HearOutcome['kind'], phrase: string, audio_ms: number])[]

  beforeEach(() => {
    clock = createSimulatedClock({ wall_ms: 0, mono_ms: 0, boot: 'b', offset_min: 0 })
    speech = createScriptedSpeech(() => clock.read().mono_ms)
    outcomes = []
    ear = createPhraseEar({
      speech,
      clock,
      actAtOnce: ['faint'],
      onOutcome: (outcome, audio_ms) =>
        outcomes.push([outcome.kind, 'phrase' in outcome ? outcome.phrase : '', audio_ms]),
    })
    ear.open(
      new Map<string, CommandKey>([
        ['band on', 'bandOn'],
        ['feeling faint', 'faint'],
      ]),
    )
    void speech.start()
  })

  it('tells what was accepted, and when the sound behind it was', () => {
    clock.advance(500)
    speech.final('band on', { mono_ms: 400 })
    expect(outcomes).toEqual([['accept', 'band on', 400]])
  })

  it('lets a phrase act when its hold ends', () => {
    speech.partial('band on')
    clock.advance(HEAR_RULES.hold_ms)
    expect(outcomes).toEqual([['accept', 'band on', HEAR_RULES.hold_ms]])
  })

  it('follows other rules where they are given', () => {
    ear.end()
    const rules = { ...HEAR_RULES, hold_ms: 1000 }
    const onOutcome = ({ kind }: HearOutcome, audio_ms: number) =>
      outcomes.push([kind, '', audio_ms])
    ear = createPhraseEar({ speech, clock, actAtOnce: [], rules, onOutcome })
    ear.open(new Map<string, CommandKey>([['band on', 'bandOn']]))
    speech.partial('band on')
    clock.advance(999)
    expect(outcomes).toEqual([])
    clock.advance(1)
    expect(outcomes).toEqual([['accept', '', 1000]])
  })

  it('takes what may be our own prompt for no phrase, but for a safety phrase', () => {
    ear.setSpeaking(true)
    speech.final('band on')
    speech.final('feeling faint')
    expect(outcomes.map(([kind, phrase]) => [kind, phrase])).toEqual([
      ['refuse', 'band on'],
      ['accept', 'feeling faint'],
    ])
  })

  it('is deaf after its end, also to a phrase that was waiting', () => {
    speech.partial('band on')
    ear.end()
    clock.advance(1000)
    speech.final('band on')
    expect(outcomes).toEqual([])
  })
})
