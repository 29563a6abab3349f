import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { describe, expect, it, vi } from 'vitest'
import { missingModelTools, modelArchive } from '../../scripts/checks/modelArchive.ts'
import { emptyTally } from '../../scripts/checks/tally.ts'
import { SPEECH_MODELS } from '../../src/app/site/speechModels.ts'
import manifest from '../../models/manifest.json' with { type: 'json' }

describe('the model’s archive', () => {
  it.each(SPEECH_MODELS)('has the sum that the app checks: %s', (name) => {
    const bytes = readFileSync(`models/${name}`)
    const sha256 = createHash('sha256').update(bytes).digest('hex')
    expect(manifest[name]).toEqual({ sha256, bytes: bytes.length })
  })

  it('is left out with the reason where a tool is missing, and counted as skipped', () => {
    const told = vi.spyOn(console, 'log').mockImplementation(() => undefined)
    const tally = emptyTally()
    modelArchive(tally, ['g++', 'libfst-tools'])
    expect(tally).toMatchObject({ passed: 0, failed: 0, skipped: 1 })
    expect(told.mock.calls.join()).toContain('lacks g++ and libfst-tools')
  })

  it('names each tool that is missing', () => {
    expect(missingModelTools(() => true)).toEqual([])
    expect(missingModelTools((command) => command !== 'fstcompile')).toEqual(['libfst-tools'])
    expect(missingModelTools((_, [first]) => first !== '-E')).toEqual(['libfst-dev'])
  })
})
