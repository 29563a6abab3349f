/* eslint-disable @typescript-eslint/unbound-method -- the page's own methods are wrapped and called with their object */
import type { BrowserContext, Page } from 'playwright-core'

const CHIMES = '/chimes/'
export const PROMPTS = '/prompts/'

/** One sound that the page began to play. */
export interface Played {
  /** Path of the sound file. */
  readonly path: string
  readonly at_ms: number
  /** Where in the file it began and how long it was to last, s. */
  readonly offset_s: number
  readonly length_s: number
  readonly ended: boolean
}

interface SoundWindow extends Window {
  stillhandPlayed?: { -readonly [K in keyof Played]: Played[K] }[]
}

/** Writes down every sound that a page plays, at the last place before the loudspeaker: Web Audio itself. */
export async function recordSounds(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const played: NonNullable<SoundWindow['stillhandPlayed']> = []
    ;(window as SoundWindow).stillhandPlayed = played
    const pathOfBytes = new WeakMap<ArrayBuffer, string>()
    const pathOfSound = new WeakMap<AudioBuffer, string>()
    const pathOf = (url: string): string => new URL(url, location.href).pathname

    const proto = XMLHttpRequest.prototype
    // On `open`, so that this listener comes before any that the player adds.
    const open = proto.open as (this: XMLHttpRequest, ...rest: unknown[]) => void
    proto.open = function (this: XMLHttpRequest, ...rest: unknown[]) {
      this.addEventListener('load', () => {
        const { response } = this as { response: unknown }
        if (response instanceof ArrayBuffer) pathOfBytes.set(response, pathOf(this.responseURL))
      })
      open.apply(this, rest)
    }
    const arrayBuffer = Response.prototype.arrayBuffer
    Response.prototype.arrayBuffer = async function (this: Response) {
      const bytes = await arrayBuffer.call(this)
      if (this.url) pathOfBytes.set(bytes, pathOf(this.url))
      return bytes
    }
    const decode = BaseAudioContext.prototype.decodeAudioData
    BaseAudioContext.prototype.decodeAudioData = function (
      this: BaseAudioContext,
      bytes: ArrayBuffer,
      done?: ((sound: AudioBuffer) => void) | null,
      failed?: ((error: DOMException) => void) | null,
    ) {
      const path = pathOfBytes.get(bytes)
      const note = (sound: AudioBuffer): void => {
        if (path !== undefined) pathOfSound.set(sound, path)
      }
      return decode
        .call(
          this,
          bytes,
          (sound) => {
            note(sound)
            done?.(sound)
          },
          failed ?? undefined,
        )
        .then((sound) => {
          note(sound)
          return sound
        })
    }
    const source = AudioBufferSourceNode.prototype
    const start = source.start
    source.start = function (
      this: AudioBufferSourceNode,
      when?: number,
      offset?: number,
      length?: number,
    ) {
      const path = this.buffer && pathOfSound.get(this.buffer)
      if (path && this.buffer) {
        const offset_s = offset ?? 0
        const length_s = Math.min(length ?? Infinity, this.buffer.duration - offset_s)
        const row = { path, at_ms: Date.now(), offset_s, length_s, ended: false }
        played.push(row)
        this.addEventListener('ended', () => (row.ended = true))
      }
      if (length !== undefined) start.call(this, when, offset, length)
      else start.call(this, when, offset)
    }
  })
}

/** Every sound played since the page was loaded, oldest first. */
export async function soundsOf(page: Page): Promise<readonly Played[]> {
  return page.evaluate(() => (window as SoundWindow).stillhandPlayed ?? [])
}

/** How long it must have been quiet: a prompt that is asked for may still be loading. */
const QUIET_ms = 500

/** Resolves when nothing under that folder has been playing for a while. */
export async function quiet(page: Page, folder: string): Promise<void> {
  let since_ms = Date.now()
  const end_ms = since_ms + 30_000
  while (Date.now() - since_ms < QUIET_ms) {
    if (Date.now() > end_ms) throw new Error(`Something under ${folder} never ends.`)
    const sounds = await soundsOf(page)
    if (sounds.some(({ path, ended }) => path.startsWith(folder) && !ended)) since_ms = Date.now()
    await page.waitForTimeout(50)
  }
}

/** The chimes among the sounds, by name. */
export async function chimesOf(
  page: Page,
): Promise<readonly { readonly name: string; readonly at_ms: number }[]> {
  return (await soundsOf(page))
    .filter(({ path }) => path.startsWith(CHIMES))
    .map(({ path, at_ms }) => ({ name: path.slice(CHIMES.length).replace(/\.\w+$/, ''), at_ms }))
}
