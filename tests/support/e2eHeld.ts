import type { Page } from 'playwright-core'
import { base64Of, spokenFile, type MicWindow } from './e2eMic.ts'
import { TALK, TALK_FILE } from './talk.ts'

/** Chooses the key and the bar of held listening in the settings, as a person does. */
export async function setHeldListening(page: Page, key: string): Promise<void> {
  const { href } = new URL(page.url())
  await page.getByRole('button', { name: /^Settings/ }).click()
  await page.getByLabel('Key or foot pedal').press(key)
  await page.getByLabel('A bar on the screen of the draw').check()
  await page.goto(href)
}

/** Sentences that hold no phrase of a draw, one before and one behind the phrase. */
const AROUND = ['my vein always rolls when they try', 'everything hurts when it rains'] as const

/** The talk is a little louder than the phrase: no pause is heard between them. */
const LOUDER_dB = 3

const lineOf = (words: string) => {
  const line = TALK.find((each) => each.words === words)
  if (!line) throw new Error(`Nobody says "${words}".`)
  return { start_s: line.start_s, length_s: line.end_s - line.start_s, gain_dB: LOUDER_dB }
}

/** The talk goes on so far into the phrase and out of it that there is no pause between them, ms. */
const OVERLAP_ms = 120

/** Speaks a phrase with talk right before and right behind it, a little louder than it is. */
export async function sayInsideTalk(page: Page, phrase: string): Promise<void> {
  await page.evaluate(
    async ([talkFile, phraseFile, before, behind, overlap_ms]) => {
      const mic = (window as MicWindow).stillhandMic
      if (!mic) throw new Error('The page has no test microphone.')
      const talk = await mic.decode(talkFile)
      const spoken = await mic.decode(phraseFile)
      const sleep = (length_ms: number) => new Promise((done) => setTimeout(done, length_ms))
      const first = mic.play(talk, before)
      await sleep(1000 * before.length_s - overlap_ms)
      const phrase = mic.play(spoken)
      await sleep(1000 * spoken.duration - overlap_ms)
      await Promise.all([first, phrase, mic.play(talk, behind)])
    },
    [
      base64Of(TALK_FILE),
      base64Of(spokenFile('am_michael', phrase)),
      lineOf(AROUND[0]),
      lineOf(AROUND[1]),
      OVERLAP_ms,
    ] as const,
  )
}

/** How high the bar is, px, and whether a finger or an elbow reaches all of it. */
export const fillOfBar = (page: Page): Promise<{ height: number; isWhole: boolean }> =>
  page.locator('.earsBar').evaluate((bar) => {
    const { left, right, top, bottom, height } = bar.getBoundingClientRect()
    const isWhole = [top + 4, (top + bottom) / 2, bottom - 4].every((y) =>
      [left + 8, (left + right) / 2, right - 8].every((x) => {
        const at = document.elementFromPoint(x, y)
        return at !== null && bar.contains(at)
      }),
    )
    return { height, isWhole }
  })
