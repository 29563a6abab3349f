import { afterEach, expect, inject, test } from 'vitest'
import { untilLogged } from '../support/e2eDraw.ts'
import { readLog } from '../support/e2eLog.ts'
import { spokenFile } from '../support/e2eMic.ts'
import { openDemoDraw, type DemoDraw } from '../support/openDemoDraw.ts'
import { speakTrack, type Spoken } from '../support/speakTrack.ts'
import { TALK, TALK_dB, TALK_FILE, type TalkLine } from '../support/talk.ts'

/** The talk, once, and a second. */
const TRACK_s = 77
/** After the last phrase the talk goes on at least this long, and nothing may come of it. */
const TALK_ON_ms = 5000

let draw: DemoDraw
afterEach(() => draw.browser.close())

test('the browser’s own microphone: two phrases in a recording of the same talk', async () => {
  // Each more than once, in pauses and over a sentence, since nobody here waits for the prompts.
  const phrases = [
    ...[pauseAfter('i am not'), pauseAfter('the courier')].map(saying('patient confirmed')),
    ...[sentence('that band'), pauseAfter('no no'), pauseAfter('we are out')].map(
      saying('consent given'),
    ),
  ]
  const talk = { at_s: 0, file: TALK_FILE, gain_dB: TALK_dB }
  draw = await openDemoDraw(inject('baseUrl'), { micFile: speakTrack([talk, ...phrases], TRACK_s) })
  const { page, faults } = draw
  await untilLogged(page, 0, ({ event }) => event.type === 'consentGiven', 60_000)
  await page.waitForTimeout(TALK_ON_ms)
  const log = await readLog(page)
  expect(log.map(({ event, source, heard }) => [event.type, source, heard])).toEqual([
    ['drawOpened', 'app', undefined],
    ['identifierChecked', 'voice', 'patient confirmed'],
    ['identifierChecked', 'voice', 'patient confirmed'],
    ['consentGiven', 'voice', 'consent given'],
  ])
  expect(faults).toEqual([])
}, 150_000)

const lineOf = (words: string): TalkLine => {
  const line = TALK.find((one) => one.words.startsWith(words))
  if (!line) throw new Error(`Nobody says "${words}".`)
  return line
}
const pauseAfter = (words: string): number => lineOf(words).end_s + 0.25
const sentence = (words: string): number => lineOf(words).start_s + 0.25
const saying =
  (phrase: string) =>
  (at_s: number): Spoken => ({ at_s, file: spokenFile('am_michael', phrase) })
