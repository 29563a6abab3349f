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

/** Part of a sound and how loud to play it. */
export interface Part {
  readonly start_s?: number
  readonly length_s?: number
  readonly gain_dB?: number
}

export interface MicWindow extends Window {
  stillhandMic?: {
    decode(base64: string): Promise<AudioBuffer>
    /** Resolves at its end with when it was played, Unix ms. */
    play(sound: AudioBuffer, part?: Part): Promise<{ start_ms: number; end_ms: number }>
  }
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
    // A file that is shown as it is has none.
    if ('mediaDevices' in navigator) navigator.mediaDevices.getUserMedia = openStream
    const opened = (): AudioContext => {
      if (!audio) throw new Error('The page has not asked for the microphone.')
      return audio
    }
    const decode = (base64: string): Promise<AudioBuffer> => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))
      return opened().decodeAudioData(bytes.buffer)
    }
    const play = async (sound: AudioBuffer, part: Part = {}) => {
      const source = opened().createBufferSource()
      source.buffer = sound
      const loudness = opened().createGain()
      loudness.gain.value = 10 ** ((part.gain_dB ?? 0) / 20)
      source.connect(loudness)
      for (const gain of gains) loudness.connect(gain)
      const start_ms = Date.now()
      await new Promise((resolve) => {
        source.onended = resolve
        source.start(0, part.start_s ?? 0, part.length_s ?? sound.duration)
      })
      return { start_ms, end_ms: Date.now() }
    }
    ;(window as MicWindow).stillhandMic = { decode, play }
  })
}

/** Speaks one phrase into the page's microphone and waits for its end. */
export async function say(page: Page, voice: Voice, phrase: string): Promise<Said> {
  const times = await page.evaluate(
    async (base64) => {
      const mic = (window as MicWindow).stillhandMic
      return mic?.play(await mic.decode(base64))
    },
    base64Of(spokenFile(voice, phrase)),
  )
  if (!times) throw new Error('The page has no test microphone.')
  return { phrase, ...times }
}

/** A file as it is handed to a page. */
export const base64Of = (file: string): string => readFileSync(file).toString('base64')
