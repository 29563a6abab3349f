import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import { clockTime } from '../../src/core/time/format.ts'
import { firstOf } from './e2eDraw.ts'

/** Opens the chart note: every time in it is the time of an entry, and the times that matter are there. */
export async function checkNote(page: Page, log: readonly LogEntry[]): Promise<void> {
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
