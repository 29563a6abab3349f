import { afterEach, expect, inject, test } from 'vitest'
import { storyOf, untilLogged } from '../support/e2eDraw.ts'
import { spokenFile } from '../support/e2eMic.ts'
import { openDemoDraw, type DemoDraw } from '../support/openDemoDraw.ts'
import { speakTrack } from '../support/speakTrack.ts'

let draw: DemoDraw
afterEach(() => draw.browser.close())

test('the browser’s own microphone: a recording played into its fake device is heard', async () => {
  // Each phrase twice, since nobody here waits for the prompts; what is already done is not recorded again.
  const phrases = ['patient confirmed', 'patient confirmed', 'consent given', 'consent given']
  const spoken = phrases.map((phrase, i) => ({
    at_s: 8 + 6 * i,
    file: spokenFile('am_michael', phrase),
  }))
  draw = await openDemoDraw(inject('baseUrl'), { micFile: speakTrack(spoken, 40) })
  const log = await untilLogged(draw.page, 0, ({ event }) => event.type === 'consentGiven', 45_000)
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
