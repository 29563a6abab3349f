import type { Page } from 'playwright-core'
import { findByWords, readDraw, type DrawSeen, type Seen } from './eyes.ts'

/** What a trial came to. */
export interface Effort {
  clicks: number
  keystrokes: number
  /** From target to target, CSS px. */
  travel_px: number
  /** How often something had to be scrolled into sight. */
  scrolls: number
  /** So often the large choice of the draw stood elsewhere than before, by more than 2 px. */
  mainMoves: number
  /** Where words were not found as they were looked for, or not in sight. */
  readonly hesitations: string[]
}

/** Someone who has not seen the app: reads what is in sight, presses what bears the words, scrolls when they are not there. */
export interface Novice {
  readonly effort: Effort
  /** Looks for the first of these words that is anywhere on the page, and presses what bears them. */
  presses(...words: readonly string[]): Promise<void>
  /** Presses the field with these words beside it, and types. */
  types(field: string, text: string): Promise<void>
  key(name: string): Promise<void>
  /** Reads the draw screen. */
  reads(): Promise<DrawSeen>
  hesitates(why: string): void
}

/** Longest that a person waits for words to come up, ms. */
const PATIENCE_ms = 3000
/** As far as the main choice may shift and still be found without looking, CSS px. */
const STEADY_px = 2

export function createNovice(page: Page): Novice {
  const effort: Effort = {
    clicks: 0,
    keystrokes: 0,
    travel_px: 0,
    scrolls: 0,
    mainMoves: 0,
    hesitations: [],
  }
  let hand = { x: 0, y: 0 }
  let lastMain: readonly number[] | undefined

  async function looksFor(words: readonly string[]): Promise<Seen> {
    const end = Date.now() + PATIENCE_ms
    for (;;) {
      for (const [i, text] of words.entries()) {
        const seen = await findByWords(page, text)
        if (!seen) continue
        if (i > 0) effort.hesitations.push(`looked for "${words[0]}", found "${text}"`)
        return seen.isInSight ? seen : scrollsTo(text)
      }
      if (Date.now() > end) throw new Error(`"${words.join('", "')}" is not on the screen.`)
      await page.waitForTimeout(100)
    }
  }

  async function scrollsTo(text: string): Promise<Seen> {
    effort.scrolls += 1
    for (let turns = 0; turns < 40; turns++) {
      const seen = await findByWords(page, text)
      if (seen?.isInSight) return seen
      await page.mouse.wheel(0, (seen?.y ?? 0) > 300 ? 240 : -240)
      await page.waitForTimeout(40)
    }
    throw new Error(`"${text}" cannot be brought into sight.`)
  }

  async function presses(...words: readonly string[]): Promise<void> {
    const { x, y } = await looksFor(words)
    effort.travel_px += Math.hypot(x - hand.x, y - hand.y)
    hand = { x, y }
    effort.clicks += 1
    await page.mouse.click(x, y)
  }

  return {
    effort,
    presses,
    async types(field, text) {
      await presses(field)
      effort.keystrokes += text.length
      await page.keyboard.type(text)
    },
    async key(name) {
      effort.keystrokes += 1
      await page.keyboard.press(name)
    },
    async reads() {
      const seen = await readDraw(page)
      const { main } = seen
      if (main && lastMain?.some((edge, i) => Math.abs(edge - (main[i] ?? 0)) > STEADY_px)) {
        effort.mainMoves += 1
      }
      lastMain = main ?? lastMain
      return seen
    },
    hesitates: (why) => void effort.hesitations.push(why),
  }
}
