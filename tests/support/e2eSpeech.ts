import { readFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium, type Browser, type Page } from 'playwright-core'
import { needChromium } from '../../scripts/findChromium.ts'
import { bundlePage } from '../measure/bundlePage.ts'
import { pageServer, type PageServer } from '../measure/pageServer.ts'
import { watchedWorker } from '../measure/workerMemory.ts'
import { spokenFile } from './e2eMic.ts'
import { readWav } from './wav.ts'
import type { VoskPage } from './voskPage.ts'

declare global {
  var vosk: VoskPage
}

const WORKLET = join(import.meta.dirname, '../../public/audio/capture.worklet.js')

export interface SpeechBench {
  readonly server: PageServer
  /** A page in a browser profile of its own, so that nothing is cached. */
  freshPage(): Promise<Page>
  close(): Promise<void>
}

/** The recognizer's adapter in a page of its own, served with the app's policy. */
export async function speechBench(): Promise<SpeechBench> {
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-speech-'))
  await bundlePage(join(import.meta.dirname, 'voskPage.ts'), folder)
  const server = await pageServer(folder)
  server.extra.set('/vosk/vosk.worker.js', watchedWorker())
  server.extra.set('/audio/capture.worklet.js', readFileSync(WORKLET))
  const browser: Browser = await chromium.launch({
    executablePath: needChromium(),
    args: [
      '--enable-blink-features=ForceEagerMeasureMemory',
      '--disable-dev-shm-usage',
      '--use-fake-device-for-media-stream',
    ],
  })
  return {
    server,
    async freshPage() {
      const context = await browser.newContext()
      const page = await context.newPage()
      await openVoskPage(page, server)
      return page
    },
    async close() {
      await browser.close()
      await server.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

export async function openVoskPage(page: Page, server: PageServer): Promise<void> {
  await page.goto(server.url)
  await page.waitForFunction('globalThis.vosk')
}

const RATE_Hz = 16_000

/** A quiet room for so long: noise of -60 dB below full scale, the same each time. */
export function roomNoise(length_ms: number): Float32Array {
  let seed = 1
  return Float32Array.from({ length: (RATE_Hz * length_ms) / 1000 }, () => {
    seed = (seed * 16_807) % 2_147_483_647
    return 0.00173 * ((2 * seed) / 2_147_483_647 - 1)
  })
}

export const spoken = (phrase: string): Float32Array =>
  readWav(readFileSync(spokenFile('am_michael', phrase))).samples

export function joined(...parts: readonly Float32Array[]): Float32Array {
  const all = new Float32Array(parts.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const part of parts) {
    all.set(part, at)
    at += part.length
  }
  return all
}

/** As 16-bit samples in base64, the way into the page. */
export const packed = (samples: Float32Array): string =>
  Buffer.from(
    Int16Array.from(samples, (sample) => Math.round(32767 * Math.max(-1, Math.min(1, sample))))
      .buffer,
  ).toString('base64')
