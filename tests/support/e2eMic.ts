import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { BrowserContext, Page } from 'playwright-core'

export const VOICES = ['am_michael', 'bf_emma'] as const
export type Voice = (typeof VOICES)[number]

/** When a phrase was played into the microphone, Unix ms. */
export interface Said {
  readonly phrase: string
  readonly start_ms: number
  readonly end_ms: number
}

interface MicWindow extends Window {
  stillhandMic?: { play(base64: string): Promise<{ start_ms: number; end_ms: number }> }
}

/** The recording of a phrase. */
export const spokenFile = (voice: Voice, phrase: string): string =>
  join(import.meta.dirname, '..', 'fixtures', 'mic', voice, `${phrase.replaceAll(' ', '_')}.wav`)

/**
 * Gives every page of the context a microphone that the test can speak into: what `getUserMedia` hands out is a live
 * audio track, so capture, worklet and recognizer are the real ones. Faint noise stands for the room.
 */
export async function fakeMicrophone(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const gains: GainNode[] = []
    let audio: AudioContext | undefined
    const openStream = async (): Promise<MediaStream> => {
      audio ??= new AudioContext()
      await audio.resume()
      const out = audio.createMediaStreamDestination()
      const gain = audio.createGain()
      gain.connect(out)
      gains.push(gain)
      const room = audio.createBufferSource()
      room.buffer = audio.createBuffer(1, audio.sampleRate, audio.sampleRate)
      const noise = room.buffer.getChannelData(0)
      noise.forEach((_, i) => (noise[i] = 0.001 * (2 * Math.random() - 1)))
      room.loop = true
      room.connect(gain)
      room.start()
      return out.stream
    }
    navigator.mediaDevices.getUserMedia = openStream
    const play = async (base64: string) => {
      if (!audio) throw new Error('The page has not asked for the microphone.')
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))
      const source = audio.createBufferSource()
      source.buffer = await audio.decodeAudioData(bytes.buffer)
      for (const gain of gains) source.connect(gain)
      const start_ms = Date.now()
      await new Promise((resolve) => {
        source.onended = resolve
        source.start()
      })
      return { start_ms, end_ms: Date.now() }
    }
    ;(window as MicWindow).stillhandMic = { play }
  })
}

/** Speaks one phrase into the page's microphone and waits for its end. */
export async function say(page: Page, voice: Voice, phrase: string): Promise<Said> {
  const base64 = readFileSync(spokenFile(voice, phrase)).toString('base64')
  const times = await page.evaluate(
    (sound) => (window as MicWindow).stillhandMic?.play(sound),
    base64,
  )
  if (!times) throw new Error('The page has no test microphone.')
  return { phrase, ...times }
}
