import { describe, expect, it } from 'vitest'
import { readSettings } from '../../../src/app/site/readSettings.ts'
import { isModelFile, modelOf, SHIPPED_MODEL, SPEECH_MODELS } from '../../../src/app/site/speechModels.ts' // prettier-ignore
import { texts } from '../../../src/data/en/texts.ts'
import manifest from '../../../models/manifest.json' with { type: 'json' }

const kept = (settings: object) => readSettings(JSON.stringify(settings), texts.site)

describe('the speech model of the settings', () => {
  it('is one that comes with the app and is checked by its sum', () => {
    expect(Object.keys(manifest)).toEqual([...SPEECH_MODELS])
  })

  it('is the app’s own where nobody chose', () => {
    expect(modelOf(kept({}).value)).toBe(SHIPPED_MODEL)
    expect(SHIPPED_MODEL).toContain('0.2')
  })

  it('moves on where an earlier version had kept its own by default', () => {
    expect(kept({ modelFile: 'stillhand-en-0.1.tar.gz' })).toMatchObject({
      ...{ value: { speechModel: '' }, faults: [] },
    })
  })

  it('stays what a person had typed, or has chosen since', () => {
    expect(modelOf(kept({ modelFile: 'vosk-small.tar.gz' }).value)).toBe('vosk-small.tar.gz')
    const chosen = { modelFile: 'vosk-small.tar.gz', speechModel: 'stillhand-en-0.1.tar.gz' }
    expect(modelOf(kept(chosen).value)).toBe('stillhand-en-0.1.tar.gz')
    expect(modelOf(kept({ ...chosen, speechModel: '' }).value)).toBe(SHIPPED_MODEL)
  })

  it.each(['../secret.tar.gz', 'a/b.zip', '..', 'a b', 7])('is never an address: %s', (name) => {
    for (const key of ['modelFile', 'speechModel']) {
      const { value, faults } = kept({ [key]: name })
      expect(modelOf(value)).toBe(SHIPPED_MODEL)
      expect(faults).toHaveLength(1)
    }
  })

  it('is a plain file name', () => {
    expect(isModelFile('vosk-model.zip')).toBe(true)
    expect(['', '.', '..', 'a/b', 'x'.repeat(101)].filter(isModelFile)).toEqual([])
  })
})
