import { existsSync, readFileSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import {
  LEVEL_dB,
  LEVEL_SLACK_dB,
  LONGEST_s,
  parts,
  promptsOf,
  textHash,
  VOICES,
  type PromptManifest,
} from '../../scripts/makePrompts.ts'

const root = join(import.meta.dirname, '..', '..')
const folder = join(root, 'public', 'prompts')
const manifest = JSON.parse(readFileSync(join(folder, 'manifest.json'), 'utf8')) as PromptManifest
const REMEDY = 'Run "npx tsx scripts/makePrompts.ts".'

/**
 * Length of an Ogg Vorbis file from its own headers: the last page counts the samples up to its end
 * (RFC 3533 section 6), the identification header has the rate (Vorbis I specification, section 4.2.2).
 */
function oggSeconds(file: string): number {
  const bytes = readFileSync(file)
  const lastPage = bytes.lastIndexOf('OggS')
  const identification = bytes.indexOf('\x01vorbis', 0, 'latin1')
  if (lastPage < 0 || identification < 0) throw new Error(`${file} is not Ogg Vorbis.`)
  const samples = Number(bytes.readBigInt64LE(lastPage + 6))
  return samples / bytes.readUInt32LE(identification + 12)
}

describe.each(VOICES)('the prompts spoken by $voice', ({ voice, language }) => {
  const prompts = promptsOf(language)
  const spoken = manifest[voice] ?? {}

  it('are there for every text as it now stands, and for nothing else', () => {
    const wrong = Object.entries(prompts)
      .filter(([key, text]) => {
        const entry = spoken[key]
        return entry?.sha256 !== textHash(text) || !existsSync(join(folder, entry.file))
      })
      .map(([key]) => key)
    expect(wrong, REMEDY).toEqual([])
    expect(Object.keys(spoken).sort(), REMEDY).toEqual(Object.keys(prompts).sort())
    expect(readdirSync(join(folder, voice)).sort(), REMEDY).toEqual(
      Object.keys(prompts)
        .map((key) => `${key}.ogg`)
        .sort(),
    )
  })

  it(`are files as long as the manifest says, each at most ${LONGEST_s} s`, () => {
    for (const [key, { file, seconds }] of Object.entries(spoken)) {
      const measured = oggSeconds(join(folder, file))
      expect(Math.abs(measured - seconds), key).toBeLessThan(0.001)
      expect(measured, `${key} lasts too long: shorten its text`).toBeLessThanOrEqual(LONGEST_s)
      // Nothing can be said in less; a shorter file means that the speaker failed.
      expect(measured, key).toBeGreaterThan(0.3)
    }
  })
})

it('are all made to one level, whoever speaks', () => {
  const levels = Object.values(manifest).flatMap((spoken) =>
    Object.values(spoken).map(({ level_dB }) => level_dB),
  )
  expect(Math.max(...levels) - LEVEL_dB, REMEDY).toBeLessThanOrEqual(LEVEL_SLACK_dB)
  expect(LEVEL_dB - Math.min(...levels), REMEDY).toBeLessThanOrEqual(LEVEL_SLACK_dB)
})

it('has no recordings of a voice that no language lists', () => {
  expect(Object.keys(manifest).sort()).toEqual(VOICES.map(({ voice }) => voice).sort())
})

it('speaks a prompt sentence by sentence, without its marks', () => {
  expect(parts('Gauze, needle out, then press.')).toEqual(['Gauze', 'needle out', 'then press'])
  expect(parts('Twenty-five seconds.')).toEqual(['Twenty-five seconds'])
  expect(parts('¿Sin hinchazón? Vendaje.')).toEqual(['Sin hinchazón', 'Vendaje'])
  expect(parts('No swelling? Bandage.')).toEqual(['No swelling', 'Bandage'])
  expect(parts('¿Otro lugar? ¿Sí o no?')).toEqual(['Otro lugar', 'Sí o no'])
})
