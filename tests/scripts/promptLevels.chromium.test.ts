import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import {
  LEVEL_dB,
  LEVEL_SLACK_dB,
  PEAK_dB,
  VOICES,
  type PromptManifest,
} from '../../scripts/makePrompts.ts'
import { peak_dB, speechLevel_dB } from '../../scripts/prompts/speechLevel.ts'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'

const folder = join(import.meta.dirname, '..', '..', 'public', 'prompts')
const manifest = JSON.parse(readFileSync(join(folder, 'manifest.json'), 'utf8')) as PromptManifest
const RATE_Hz = 16_000

let browser: OpenBrowser

beforeAll(async () => {
  browser = await openBrowser()
})
afterAll(() => browser.close())

/** The samples of a sound file as Chromium decodes it. */
async function decoded(file: string): Promise<Float32Array> {
  const [page] = browser.context.pages()
  if (!page) throw new Error('The browser has no page.')
  const text = await page.evaluate(
    async ({ base64, rate }) => {
      const context = new OfflineAudioContext(1, 1, rate)
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))
      const sound = await context.decodeAudioData(bytes.buffer)
      const samples = new Uint8Array(sound.getChannelData(0).slice().buffer)
      return Array.from(samples, (byte) => String.fromCharCode(byte)).join('')
    },
    { base64: readFileSync(join(folder, file)).toString('base64'), rate: RATE_Hz },
  )
  return new Float32Array(Uint8Array.from(text, (letter) => letter.charCodeAt(0)).buffer)
}

it.each(VOICES)(
  'every prompt spoken by $voice is equally loud, and none is clipped',
  async ({ voice }) => {
    const wrong: string[] = []
    const prompts = Object.entries(manifest[voice] ?? {})
    for (const [key, { file }] of prompts) {
      const samples = await decoded(file)
      const level_dB = speechLevel_dB(samples, RATE_Hz)
      const peak = peak_dB(samples)
      if (Math.abs(level_dB - LEVEL_dB) > LEVEL_SLACK_dB || peak > PEAK_dB)
        wrong.push(`${key}: level ${level_dB.toFixed(2)} dB, peak ${peak.toFixed(2)} dB`)
    }
    expect(prompts.length).toBeGreaterThan(0)
    expect(wrong).toEqual([])
  },
)
