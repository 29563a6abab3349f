/** Attacks on a device of a clinic, in Chromium with a real nats-server: what goes wrong is said, and no draw ends. */
import { readFileSync } from 'node:fs'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import clinic from '../../src/data/en/clinic.json' with { type: 'json' }
import lock from '../../src/data/en/lock.json' with { type: 'json' }
import { putDeskValue } from '../../src/app/hub/setup/deskValues.ts'
import { sharedPlace } from '../../src/app/hub/setup/siteSharing.ts'
import { checkChain } from '../../src/core/log/checkChain.ts'
import type { Hub } from '../../src/ports/hub.ts'
import { CLOSED_CLINIC } from '../support/closedHub.ts'
import { stateOf, type Tablet } from '../support/e2eClinic.ts'
import { addOrders, rowOf } from '../support/e2eDay.ts'
import { allThere, click, line, ordersOf, SOON, toClinic } from '../support/e2eHubDay.ts'
import {
  atHub_n,
  clinicSays,
  goOn,
  openDraw,
  PATIENT,
  sameAtHub,
  secondTab,
  setPin,
  startAnew,
  stockOf,
  toSettings,
  toStart,
  unlock,
  wholeDraw,
  wordsOn,
} from '../support/e2eHubAttacks.ts'
import { readLog } from '../support/e2eLog.ts'
import { NATS_SERVER } from '../support/natsProcess.ts'
import { type NodeDesk } from '../support/nodeDesk.ts'
import { useQuickLimits } from '../support/quickLimits.ts'
import { sha256 } from '../support/sampleLog.ts'
import { clinicOfTwo, type ClinicOfTwo } from '../support/clinicOfTwo.ts'
import type { ServedApp } from '../support/e2eSite.ts'

const PIN = '482913'
const LOTS = readFileSync('src/data/catalogue/stock.csv', 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((row) => row.split(','))
  .map(([tubeCode = '', lot = '', expires = '']) => ({ tubeCode, lot, expires, count: 40 }))
let here: ClinicOfTwo
let app: ServedApp
let desk: NodeDesk
let reader: Hub
let a: Tablet
let b: Tablet

const give = (what: 'policy' | 'stock', text: string): Promise<unknown> =>
  putDeskValue(desk.signer, sharedPlace(what), text)

describe.skipIf(!NATS_SERVER)('a device of a clinic, attacked', () => {
  beforeAll(async () => {
    here = await clinicOfTwo(() => 86_400)
    ;({ app, desk, reader, a, b } = here)
  }, 400_000)
  beforeEach(async () => {
    for (const { page } of [a, b]) await page.goto(app.baseUrl)
  })
  afterEach(() => here.closeFresh(), 60_000)
  afterAll(() => here?.end(), 60_000)

  test('loaded anew at each of several steps, it sends every entry once and in order', async () => {
    const drawId = await openDraw(a.page)
    const steps = new Set<string>()
    await goOn(a.page, async ({ step }) => {
      if (steps.has(step) || steps.size > 6) return
      steps.add(step)
      await a.page.reload()
      await click(a.page, /^Go on with the draw of/)
      await a.page.locator('.draw #step-instruction').waitFor(PATIENT)
    })
    expect(steps.size).toBeGreaterThan(4)
    await toStart(a.page)
    await sameAtHub(reader, a, drawId)
    expect(checkChain(await readLog(a.page, drawId), sha256)).toBeUndefined()
  }, 300_000)

  test('two tabs of it send every entry once, and the second says that the other one sends', async () => {
    const second = await secondTab(a, app.baseUrl)
    await line(second, clinic.link.otherPage)
    expect(await wordsOn(a.page)).not.toContain(clinic.link.otherPage)
    // Drawn in the tab that does not send.
    const drawId = await wholeDraw(second)
    await sameAtHub(reader, { page: second }, drawId)
    await line(second, clinic.link.connected)
    // The first one goes: the turn comes to the other.
    await a.page.goto('about:blank')
    await expect.poll(() => wordsOn(second), PATIENT).not.toContain(clinic.link.otherPage)
    const next = await wholeDraw(second)
    await sameAtHub(reader, { page: second }, next)
    await second.close()
    await startAnew(a.page, app.baseUrl)
  }, 300_000)

  test('locked by a PIN, it shows nothing, is still joined once it is unlocked, and sends on', async () => {
    await addOrders(a.page, 'before.csv', ordersOf(['Before Locking'], 1950))
    await rowOf(b.page, 'Before Locking').waitFor(PATIENT)
    await setPin(a.page, PIN)
    await a.page.goto(app.baseUrl)
    await a.page.getByRole('heading', { level: 1, name: 'Locked' }).waitFor(PATIENT)
    expect(await wordsOn(a.page)).not.toContain('Before')
    // What others do meanwhile is not shown either.
    await addOrders(b.page, 'meanwhile.csv', ordersOf(['While Locked'], 1951))
    await unlock(a.page, PIN)
    await allThere(a.page)
    for (const name of ['Before Locking', 'While Locked'])
      await rowOf(a.page, name).waitFor(PATIENT)
    await addOrders(a.page, 'after.csv', ordersOf(['After Unlocking'], 1952))
    await rowOf(b.page, 'After Unlocking').waitFor(PATIENT)
  }, 300_000)

  test('keeps every secret while a second tab takes editions and the PIN is taken away', async () => {
    await unlock(a.page, PIN)
    const second = await secondTab(a, app.baseUrl)
    await unlock(second, PIN)
    await allThere(second)
    await toSettings(a.page)
    const { turnOff, turnedOff, presentPin } = lock.section
    await click(a.page, turnOff.open)
    await a.page.locator('form.stopBox').getByLabel(presentPin).fill(PIN)
    await a.page.getByLabel(turnOff.understood).check()
    let isOver = false
    const editions = (async () => {
      while (!isOver) {
        await desk.book.publish((roster) => roster)
        await new Promise((resolve) => setTimeout(resolve, 30))
      }
    })()
    await click(a.page, turnOff.confirm)
    await line(a.page, turnedOff)
    isOver = true
    await editions
    await second.close()
    await startAnew(a.page, app.baseUrl)
    await clinicSays(
      a.page,
      clinic.setup.stands.member.replace('{name}', 'Chair 1').replace('{clinic}', CLOSED_CLINIC),
    )
    await startAnew(a.page, app.baseUrl)
    const drawId = await wholeDraw(a.page)
    await sameAtHub(reader, a, drawId)
  }, 300_000)

  test('another tab that was open learns that it has joined, and that it has left', async () => {
    const c = await here.fresh('Chair 3')
    const second = await secondTab(c, app.baseUrl)
    await desk.letIn(c)
    await allThere(c.page)
    await line(second, clinic.moved.joined.replace('{clinic}', CLOSED_CLINIC))
    const loaded = second.waitForEvent('load', SOON)
    await click(second, clinic.moved.anew)
    await loaded
    await allThere(second)
    await toClinic(c.page)
    await click(c.page, clinic.setup.leave.submit)
    await c.page.getByRole('button', { name: clinic.setup.leave.yes, exact: true }).click()
    await line(second, clinic.moved.left.replace('{clinic}', CLOSED_CLINIC))
    // Under its name nothing more is sent.
    const drawId = await wholeDraw(second)
    expect((await readLog(second, drawId)).length).toBeGreaterThan(20)
    expect(await atHub_n(reader, drawId)).toBe(0)
  }, 300_000)

  test('practice is never sent, neither its draws nor its list', async () => {
    const before = await reader.read({}, 0)
    await a.page.getByRole('button', { name: 'Try the invented demo' }).click()
    await a.page.getByRole('button', { name: 'Plan the tubes' }).click()
    await a.page.getByRole('button', { name: 'Start the draw' }).click()
    await a.page.locator('.draw #step-instruction').waitFor()
    await goOn(a.page)
    await toStart(a.page)
    // What is real comes behind it, so that nothing of before is still on its way.
    const drawId = await wholeDraw(a.page)
    await sameAtHub(reader, a, drawId)
    const after = await reader.read({}, before.at(-1)?.sequence ?? 0)
    const draws = new Set(after.map(({ log }) => log).filter((log) => log.startsWith('draw-')))
    expect([...draws]).toEqual([`draw-${drawId}`])
  }, 300_000)

  test('a record that is erased on it stays at the hub and with the others, and it says so before', async () => {
    const drawId = await wholeDraw(a.page)
    await sameAtHub(reader, a, drawId)
    const n = await atHub_n(reader, drawId)
    const knows = async (page: Page): Promise<boolean> =>
      JSON.stringify(await stateOf(page, 'others')).includes(drawId)
    await expect.poll(() => knows(b.page), PATIENT).toBe(true)
    await a.page
      .locator('.earlier')
      .getByRole('button', { name: new RegExp(drawId) })
      .first()
      .click()
    await click(a.page, lock.eraseOne.open)
    await line(a.page, clinic.erase)
    await a.page.getByLabel(lock.eraseOne.keptElsewhere).check()
    await click(a.page, lock.eraseOne.erase)
    await a.page.getByRole('button', { name: /^New draw/ }).waitFor()
    expect(await readLog(a.page, drawId)).toEqual([])
    await startAnew(a.page, app.baseUrl)
    // It does not come back by way of the hub, and is lost nowhere else.
    expect(JSON.stringify(await stateOf(a.page, 'draws'))).not.toContain(drawId)
    expect(await knows(a.page)).toBe(false)
    expect(await atHub_n(reader, drawId)).toBe(n)
    await startAnew(b.page, app.baseUrl)
    await expect.poll(() => knows(b.page), PATIENT).toBe(true)
  }, 240_000)

  test('a stock that the clinic has in common counts each draw once, on both devices and over a reload', async () => {
    await give('stock', JSON.stringify({ lots: LOTS, since_ms: Date.now(), counted: [] }))
    for (const { page } of [a, b]) {
      await line(page, clinic.shared.news.replace('{whats}', clinic.shared.whats.stock))
      const loaded = page.waitForEvent('load', SOON)
      await click(page, clinic.shared.use)
      await loaded
      await allThere(page)
    }
    const keptOn = ({ page }: Tablet) => stockOf(page, LOTS)
    for (const tablet of [a, b]) expect(await keptOn(tablet)).toEqual({ counted: [], gone: [] })
    const drawn = [await wholeDraw(a.page), await wholeDraw(b.page), await wholeDraw(a.page)].sort()
    for (const tablet of [a, b]) await expect.poll(() => keptOn(tablet), PATIENT).toMatchObject({ counted: drawn }) // prettier-ignore
    const [onA, onB] = [await keptOn(a), await keptOn(b)]
    expect(onA).toEqual(onB)
    expect(onA.gone.length).toBeGreaterThan(0)
    for (const { page } of [a, b]) await startAnew(page, app.baseUrl)
    // A second count would come a moment after the start.
    const last = await wholeDraw(b.page)
    for (const tablet of [a, b])
      await expect.poll(() => keptOn(tablet), PATIENT).toMatchObject({ counted: [...drawn, last].sort() }) // prettier-ignore
    const [then, there] = [await keptOn(a), await keptOn(b)]
    expect(then).toEqual(there)
    // Four draws of the same tests take four times what one takes.
    expect(then.gone.map(([, n]) => n / 4)).toEqual(onA.gone.map(([, n]) => n / 3))
  }, 400_000)

  test('its own limits, changed after a desk gave some, are told as its own until a desk gives them anew', async () => {
    const whats = clinic.shared.whats.policy
    const limits = JSON.stringify({ limits: { drying_s: 20 } })
    const take = async (): Promise<void> => {
      await line(a.page, clinic.shared.news.replace('{whats}', whats))
      const loaded = a.page.waitForEvent('load', SOON)
      await click(a.page, clinic.shared.use)
      await loaded
      await allThere(a.page)
    }
    await give('policy', limits)
    await take()
    const said = (text: string, edition: number): string =>
      text.replace('{what}', whats).replace('{edition}', String(edition)).replace('{desk}', 'Desk')
    await clinicSays(a.page, said(clinic.shared.inUse, 1))
    await startAnew(a.page, app.baseUrl)
    await useQuickLimits(a.page)
    await allThere(a.page)
    await clinicSays(a.page, said(clinic.shared.changed, 1))
    await give('policy', limits)
    // What has come before a start is taken by it.
    await line(a.page, said(clinic.shared.waiting, 2))
    await startAnew(a.page, app.baseUrl)
    await clinicSays(a.page, said(clinic.shared.inUse, 2))
    await startAnew(a.page, app.baseUrl)
  }, 240_000)

  test('nothing else went wrong on the pages', () => {
    expect([a, b].map(({ faults }) => faults)).toEqual([[], []])
  })
})
