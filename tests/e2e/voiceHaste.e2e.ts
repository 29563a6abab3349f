import { afterEach, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import {
  firstOf,
  flagsOf,
  goThrough,
  onScreen,
  storyOf,
  storyOfPlan,
  withoutFlags,
} from '../support/e2eDraw.ts'
import { readLog } from '../support/e2eLog.ts'
import { say, type Voice } from '../support/e2eMic.ts'
import { PROMPTS, quiet } from '../support/e2eSounds.ts'
import { openDemoDraw, type DemoDraw } from '../support/openDemoDraw.ts'
import { HEARD_WITHIN_ms, sayUntilHeard, TRIES, type Spoken } from '../support/sayUntilHeard.ts'

let draw: DemoDraw
let page: Page

afterEach(() => draw.browser.close())

const speak = (voice: Voice, phrase: string): Promise<Spoken> =>
  sayUntilHeard(page, phrase, () => say(page, voice, phrase))

/** The answer is spoken and shown and leaves no entry. */
async function askHowLong(voice: Voice): Promise<void> {
  const answer = page.locator('.say .above', { hasText: /\d:\d\d/ })
  for (let tries = 1; tries <= TRIES && !(await answer.isVisible()); tries++) {
    await quiet(page, PROMPTS)
    await say(page, voice, 'how long')
    await page.waitForTimeout(HEARD_WITHIN_ms)
  }
  expect(await answer.isVisible()).toBe(true)
}

test('another voice in a hurry: a slip is taken back, a question is answered, haste is on record', async () => {
  draw = await openDemoDraw(inject('baseUrl'))
  page = draw.page
  const voice = 'bf_emma'
  let asked = false
  await goThrough(page, {
    patient: false,
    confirm: async ({ phrase }) => {
      if (phrase === 'needle in' && !asked) {
        asked = true
        await askHowLong(voice)
        await speak(voice, phrase)
        await speak(voice, 'go back')
      }
      await speak(voice, phrase)
    },
  })
  const log = await readLog(page)
  const flags = ['skinNotDry', 'pressureShort', 'siteNotWatched']
  expect(flagsOf(log).filter((flag) => flags.includes(flag))).toEqual(flags)
  const needles = log.filter(({ event }) => event.type === 'needleIn')
  expect(needles).toHaveLength(2)
  expect(firstOf(log, 'entryUndone').event.seq).toBe(needles[0]?.seq)
  const undone = new Set([needles[0]?.seq, firstOf(log, 'entryUndone').seq])
  expect(storyOf(withoutFlags(log.filter(({ seq }) => !undone.has(seq))))).toEqual(storyOfPlan(log))
  expect(await onScreen(page)).toBeUndefined()
  expect(draw.faults).toEqual([])
}, 600_000)
