import { afterEach, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import { checkNote } from '../support/checkNote.ts'
import {
  firstOf,
  flagsOf,
  goThrough,
  onScreen,
  storyOf,
  storyOfPlan,
  untilLogged,
  withoutFlags,
  type OnScreen,
} from '../support/e2eDraw.ts'
import { readLog } from '../support/e2eLog.ts'
import { say, spokenFile, type Voice } from '../support/e2eMic.ts'
import { chimesOf, PROMPTS, quiet } from '../support/e2eSounds.ts'
import { openDemoDraw, type DemoDraw } from '../support/openDemoDraw.ts'
import { HEARD_WITHIN_ms, sayUntilHeard, TRIES, type Spoken } from '../support/sayUntilHeard.ts'
import { speakTrack } from '../support/speakTrack.ts'

let draw: DemoDraw
let page: Page

async function open(micFile?: string): Promise<void> {
  draw = await openDemoDraw(inject('baseUrl'), micFile)
  page = draw.page
}

afterEach(() => draw.browser.close())

const speak = (voice: Voice, phrase: string): Promise<Spoken> =>
  sayUntilHeard(page, phrase, () => say(page, voice, phrase))

/** The answer is spoken and shown and leaves no entry. */
async function askHowLong(voice: Voice): Promise<void> {
  const answer = page.locator('.notice', { hasText: /\d:\d\d/ })
  for (let tries = 1; tries <= TRIES && !(await answer.isVisible()); tries++) {
    await quiet(page, PROMPTS)
    await say(page, voice, 'how long')
    await page.waitForTimeout(HEARD_WITHIN_ms)
  }
  expect(await answer.isVisible()).toBe(true)
}

test('two tubes by voice, waiting for every chime, as far as the chart note', async () => {
  await open()
  const spoken: Spoken[] = []
  const confirm = async ({ phrase }: OnScreen): Promise<void> => {
    spoken.push(await speak('am_michael', phrase))
  }
  await goThrough(page, { patient: true, confirm })

  const log = await readLog(page)
  expect(firstOf(log, 'drawOpened').event.plan.tubes).toHaveLength(2)
  expect(storyOf(log)).toEqual(storyOfPlan(log))
  expect(flagsOf(log)).toEqual([])
  const byPerson = log.filter(({ source }) => source !== 'clock' && source !== 'app')
  expect(new Set(byPerson.map(({ source }) => source))).toEqual(new Set(['voice']))
  expect(firstOf(log, 'drawClosed').event.outcome).toBe('complete')

  // Every entry stands at the time at which it was said, not before and not much later.
  for (const { start_ms, end_ms, entries, phrase } of spoken) {
    for (const { at } of entries) {
      expect(at.at_ms, phrase).toBeGreaterThan(start_ms)
      expect(at.at_ms, phrase).toBeLessThan(end_ms + HEARD_WITHIN_ms)
    }
  }
  expect(spoken.filter(({ tries }) => tries.length > 1).length).toBeLessThanOrEqual(4)

  await checkChimes(log)
  await checkNote(page, log)
  expect(draw.faults).toEqual([])
}, 600_000)

/** What was heard by the person: an answer to each phrase, and the chimes that each step waits for. */
async function checkChimes(log: readonly LogEntry[]): Promise<void> {
  const chimes = await chimesOf(page)
  const near = (name: string, at_ms: number): boolean =>
    chimes.some((chime) => chime.name === name && Math.abs(chime.at_ms - at_ms) < 1000)
  for (const { source, at, event } of log) {
    if (source === 'voice') expect(near('heard', at.at_ms), `answer to ${event.type}`).toBe(true)
    if (event.type === 'tubeOff') expect(near('mixNow', at.at_ms), 'mix now').toBe(true)
  }
  const cues = log.flatMap(({ event, at }) =>
    event.type === 'cueGiven' ? [{ ...event, at_ms: at.at_ms }] : [],
  )
  const chimeOf: Readonly<Record<string, string>> = {
    drying: 'timeUp',
    fill: 'tubeFull',
    pressure: 'timeUp',
    watch: 'timeUp',
  }
  for (const { clock, cue, at_ms } of cues) {
    const wanted = chimeOf[clock.split('#')[0] ?? '']
    if (wanted && (cue === 'up' || cue === 'full')) expect(near(wanted, at_ms), clock).toBe(true)
  }
  const given = new Set(cues.map(({ clock }) => clock.split('#')[0]))
  for (const clock of Object.keys(chimeOf)) expect(given).toContain(clock)
}

test('another voice in a hurry: a slip is taken back, a question is answered, haste is on record', async () => {
  await open()
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

test('the browser’s own microphone: a recording played into its fake device is heard', async () => {
  // Each phrase twice, since nobody here waits for the prompts; what is already done is not recorded again.
  const phrases = ['patient confirmed', 'patient confirmed', 'consent given', 'consent given']
  const spoken = phrases.map((phrase, i) => ({
    at_s: 8 + 6 * i,
    file: spokenFile('am_michael', phrase),
  }))
  await open(speakTrack(spoken, 40))
  const log = await untilLogged(page, 0, ({ event }) => event.type === 'consentGiven', 45_000)
  expect(storyOf(log ?? [])).toEqual([
    'drawOpened',
    'identifierChecked',
    'identifierChecked',
    'consentGiven',
  ])
  expect(log?.slice(1).map(({ source, heard }) => [source, heard])).toEqual([
    ['voice', 'patient confirmed'],
    ['voice', 'patient confirmed'],
    ['voice', 'consent given'],
  ])
  expect(draw.faults).toEqual([])
}, 120_000)
