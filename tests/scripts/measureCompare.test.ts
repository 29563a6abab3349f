import { describe, expect, it } from 'vitest'
import { byVoice, voiceOf } from '../measure/byVoice.ts'
import { measureArgs } from '../measure/measureArgs.ts'
import type { AppScore, Measured } from '../measure/measure.ts'
import { reportText } from '../measure/report.ts'
import { score, type Heard } from '../measure/score.ts'

const heard = (file: string, key: string, acted: string | undefined): Heard => ({
  ...{ file, text: key, step: '', key, length_s: 1, finals: [] },
  acts: acted ? [{ key: acted, phrase: acted, latency_ms: 90, takenBack: false }] : [],
})
const app = (rows: readonly Heard[]): AppScore => ({
  ...score(rows),
  realTimeFactor: 0.1,
  load_ms: { first: 700, cached: 400 },
  memory_MB: { worker: 29, pageProcess: null },
  states: [],
})
const rows = [
  heard('bf_lily__a.wav', 'a', 'a'),
  heard('bf_lily__b.wav', 'b', 'a'),
  heard('am_liam__a.wav', 'a', 'a'),
  heard('talk.wav', '', undefined),
]
const measured: Measured = {
  ...{ model: 'new.tar.gz', pace: 'fast', noise: null, audio_s: 4, stock: null, notes: [] },
  suppressor: null,
  app: app(rows),
  compared: { model: 'old.tar.gz', app: app([heard('bf_lily__a.wav', 'a', undefined)]) },
}

describe('the summary by voice', () => {
  it.each([
    ['bf_lily__needle_in.wav', 'bf_lily'],
    ['clean/bf_lily__needle_in.wav', 'bf_lily'],
    ['am_michael/needle_in.wav', 'am_michael'],
    ['needle_in.wav', 'no voice named'],
  ])('knows who says %s', (file, voice) => {
    expect(voiceOf(file)).toBe(voice)
  })

  it('counts each voice by itself, and leaves out talk that means nothing', () => {
    expect(byVoice(rows).map(([voice, { right, spoken, wrong }]) => [voice, right, spoken, wrong])).toEqual([
      ['am_liam', 1, 1, 0],
      ['bf_lily', 1, 2, 1],
    ]) // prettier-ignore
  })
})

describe('two models in one run', () => {
  it('are asked for by a file or by a version', () => {
    expect(measureArgs(['d', '--compare', '0.1']).compare).toBe('stillhand-en-0.1.tar.gz')
    expect(measureArgs(['d', '--compare', 'x.zip']).compare).toBe('x.zip')
    expect(measureArgs(['d']).compare).toBeUndefined()
    expect(() => measureArgs(['d', '--compare'])).toThrow(/needs a value/)
  })

  it('stand side by side in the report, by voice too', () => {
    const text = reportText(measured, true)
    expect(text).toContain('app with old.tar.gz')
    expect(text).toMatch(/bf_lily +1 of 2 right \(50.0 %\), 1 wrong; compared 0 of 1 right/)
    expect(text).toMatch(/am_liam +1 of 1 right \(100.0 %\), 0 wrong\n/)
    expect(text).toContain('old.tar.gz missed: bf_lily__a.wav')
  })

  it('are one where no other was asked for', () => {
    expect(reportText({ ...measured, compared: null }, false)).not.toContain('compared')
  })
})
