import { beforeEach, describe, expect, it } from 'vitest'
import { checkLog } from '../../src/core/log/checkLog.ts'
import type { AppRig } from '../support/appRig.ts'
import type { FakeSound } from '../support/fakeSound.ts'
import { sha256 } from '../support/sampleLog.ts'
import { twoPages } from '../support/twoPages.ts'

let first: AppRig
let second: AppRig
let drawId: string

const both = async (s: number): Promise<void> => {
  for (let i = 0; i < s; i++) {
    await first.pass(1)
    await second.pass(1)
  }
}
const events = async (): Promise<string[]> =>
  (await first.stored(drawId)).entries.map(({ event }) => event.type)

/** Two pages of one browser; a draw runs in the first, with the band on, and the second opens it. */
beforeEach(async () => {
  ;[first, second] = twoPages()
  await first.app.start()
  drawId = await first.begin()
  await first.follow('needle')
  second.clock.advance(first.clock.read().mono_ms - second.clock.read().mono_ms)
  await second.app.start()
  await second.actions.go({ name: 'draw', drawId })
})

describe('a second page that opens a draw', () => {
  it('looks on: it shows step and clocks, and nothing it does is written', async () => {
    const before = await events()
    expect(before).toContain('bandOn')
    const { draw } = second.state()
    expect(draw?.step.id).toBe('needle')
    expect(draw?.mainClock?.kind).toBe('band')
    expect(draw?.elsewhere?.text).toMatch(/Another page of this device runs this draw/)
    expect([draw?.choices, draw?.always, draw?.happened]).toEqual([[], [], []])
    await second.touch('needleIn')
    await second.pass(3)
    expect(await events()).toEqual(before)
  })

  it('is silent, while the first page alarms on time', async () => {
    const chimes = (rig: AppRig) => (rig.deps.sound as FakeSound).chimes
    chimes(second).length = 0
    await both(62)
    expect(chimes(first)).toContain('timeUp')
    expect(chimes(second)).toEqual([])
    expect(second.state().draw?.severe?.kind).toBe('bandOver')
  })

  it('sees within a second what the first page records', async () => {
    await first.touch('needleIn')
    await second.pass(1.2)
    expect(second.state().draw?.step.id).toBe(first.state().draw?.step.id)
  })

  it('closed at once leaves the first page as it was', async () => {
    await second.actions.go({ name: 'home' })
    await first.touch('needleIn')
    await first.touch('flashSeen')
    expect(await events()).toContain('flashSeen')
    expect(first.state().unsaved).toBeUndefined()
  })
})

describe('taking over', () => {
  it('is an act: the second page writes, the first says so and stops', async () => {
    await second.actions.takeOver()
    await second.settle()
    expect(second.state().draw?.elsewhere).toBeUndefined()
    expect(first.state().draw?.elsewhere?.text).toMatch(/Another page has taken this draw over/)
    const before = await events()
    expect(before.at(-1)).toBe('noteAdded')
    await first.touch('needleIn')
    expect(await events()).toEqual(before)
    await second.touch('needleIn')
    expect(await events()).toContain('needleIn')
    await first.pass(1.2)
    expect(first.state().draw?.step.id).toBe(second.state().draw?.step.id)
  })

  it('may go back and forth, and every entry hangs on the one before', async () => {
    await second.actions.takeOver()
    await second.touch('needleIn')
    await first.pass(1.2)
    await first.actions.takeOver()
    await first.touch('flashSeen')
    expect(second.state().draw?.elsewhere).toBeDefined()
    await second.actions.takeOver()
    await second.touch('bandOff')
    expect(checkLog(await first.stored(drawId), sha256)).toMatchObject({ ok: true })
    expect((await events()).filter((type) => type === 'noteAdded')).toHaveLength(3)
    expect((await events()).at(-1)).toBe('bandOff')
  })

  it('keeps what the first page had recorded and not yet saved', async () => {
    const store = first.deps.logStore
    const append = store.append.bind(store)
    Object.assign(store, { append: () => Promise.reject(new Error('The disk is full.')) })
    await first.touch('needleIn')
    expect(first.state().unsaved?.entries).toBeGreaterThan(0)
    await second.actions.takeOver()
    Object.assign(store, { append })
    await second.touch('bandOff')
    await both(12)
    expect(await events()).toEqual(expect.arrayContaining(['needleIn', 'bandOff']))
    expect(first.state().unsaved).toBeUndefined()
    expect(checkLog(await first.stored(drawId), sha256)).toMatchObject({ ok: true })
  })

  it('is open to anybody once the first page has left the draw', async () => {
    await first.close()
    const other = await first.begin({ fullName: 'Berta Second' })
    expect(other).not.toBe(drawId)
    await second.actions.go({ name: 'home' })
    await second.actions.go({ name: 'draw', drawId })
    expect(second.state().draw?.elsewhere).toBeUndefined()
  })
})

it('two pages that open draws in one moment get two numbers', async () => {
  const pages = [first, second]
  for (const page of pages) await page.plan({ fullName: 'Carla Third' })
  await Promise.all(pages.map((page) => page.actions.openDraw()))
  const ids = (await first.deps.logStore.list()).map((draw) => draw.drawId)
  expect(new Set(ids).size).toBe(3)
})
