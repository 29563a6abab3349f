import { afterEach, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import type { LogEntry } from '../../src/core/log/entry.ts'
import { clockTime } from '../../src/core/time/format.ts'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'
import {
  firstOf,
  flagsOf,
  goThrough,
  onScreen,
  startDemo,
  storyOf,
  storyOfPlan,
  untilLogged,
  withoutFlags,
  type OnScreen,
} from '../support/e2eDraw.ts'
import { readLog } from '../support/e2eLog.ts'
import { fakeMicrophone, say, spokenFile, type Said, type Voice } from '../support/e2eMic.ts'
import { chimesOf, PROMPTS, quiet, recordSounds } from '../support/e2eSounds.ts'
import { watch } from '../support/e2eWatch.ts'
import { speakTrack } from '../support/speakTrack.ts'

/** From the end of a phrase to its entry: the final result comes up to about a second later. */
const HEARD_WITHIN_ms = 2500
/** A person who is not heard says it again; more often than this would be a fault. */
const TRIES = 3

let browser: OpenBrowser
let page: Page
let faults: readonly string[]

async function open(micFile?: string): Promise<void> {
  browser = await openBrowser(micFile ? { micFile } : {})
  if (!micFile) await fakeMicrophone(browser.context)
  await recordSounds(browser.context)
  faults = await watch(browser.context, inject('baseUrl'))
  page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(inject('baseUrl'))
  await startDemo(page)
  await page.locator('.listening.listening').getByText('Listening').waitFor({ timeout: 60_000 })
}

afterEach(() => browser.close())

interface Spoken extends Said {
  readonly tries: number
  readonly entries: readonly LogEntry[]
}

/** Speaks once no prompt plays, and again if nothing has come of it. */
async function sayUntilHeard(voice: Voice, phrase: string): Promise<Spoken> {
  for (let tries = 1; tries <= TRIES; tries++) {
    await quiet(page, PROMPTS)
    const before = (await readLog(page)).length
    const said = await say(page, voice, phrase)
    const log = await untilLogged(page, before, ({ heard }) => heard === phrase, HEARD_WITHIN_ms)
    if (log)
      return { ...said, tries, entries: log.slice(before).filter(({ heard }) => heard === phrase) }
  }
  throw new Error(`"${phrase}" was said ${TRIES} times and not heard.`)
}

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
    spoken.push(await sayUntilHeard('am_michael', phrase))
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
  expect(spoken.filter(({ tries }) => tries > 1).length).toBeLessThanOrEqual(4)

  await checkChimes(log)
  await checkNote(log)
  expect(faults).toEqual([])
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

/** Every time in the note is the time of an entry, and the times that matter are there. */
async function checkNote(log: readonly LogEntry[]): Promise<void> {
  await page.getByRole('button', { name: 'Read the chart note' }).click()
  const note = await page.locator('.note').innerText()
  const logged = new Set(log.map(({ at }) => clockTime(at)))
  const written = note.match(/\b\d\d:\d\d:\d\d\b/g) ?? []
  expect(written.filter((time) => !logged.has(time))).toEqual([])
  for (const type of ['bandOn', 'bandOff', 'needleIn', 'needleOut', 'tubeOff'] as const) {
    expect(written, type).toContain(clockTime(firstOf(log, type).at))
  }
  const { patient, plan, site } = firstOf(log, 'drawOpened').event
  for (const text of [patient.fullName, patient.recordNumber, site]) expect(note).toContain(text)
  for (const { name } of plan.tubes) expect(note).toContain(name)
  expect(note).toMatch(/invented/i)
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
        await sayUntilHeard(voice, phrase)
        await sayUntilHeard(voice, 'go back')
      }
      await sayUntilHeard(voice, phrase)
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
  expect(faults).toEqual([])
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
  expect(faults).toEqual([])
}, 120_000)
