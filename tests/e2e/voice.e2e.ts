import { afterEach, expect, inject, test } from 'vitest'
import type { Page } from 'playwright-core'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import { checkNote } from '../support/checkNote.ts'
import {
  firstOf,
  flagsOf,
  goThrough,
  storyOf,
  storyOfPlan,
  type OnScreen,
} from '../support/e2eDraw.ts'
import { readLog } from '../support/e2eLog.ts'
import { say } from '../support/e2eMic.ts'
import { chimesOf } from '../support/e2eSounds.ts'
import { openDemoDraw, type DemoDraw } from '../support/openDemoDraw.ts'
import { HEARD_WITHIN_ms, sayUntilHeard, type Spoken } from '../support/sayUntilHeard.ts'
import { WIDE } from '../support/wide.ts'

let draw: DemoDraw
let page: Page

afterEach(() => draw.browser.close())

test('two tubes by voice, waiting for every chime, as far as the chart note', async () => {
  draw = await openDemoDraw(inject('baseUrl'), { quick: !WIDE })
  page = draw.page
  const spoken: Spoken[] = []
  const confirm = async ({ phrase }: OnScreen): Promise<void> => {
    spoken.push(await sayUntilHeard(page, phrase, () => say(page, 'am_michael', phrase)))
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
