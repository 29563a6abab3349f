/** Two chairs and a bench share a day through a real nats-server, each in a browser of its own under the real policy. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { checkChain } from '../../src/core/log/checkChain.ts'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import type { Hub } from '../../src/ports/hub.ts'
import { closedHub, type ClosedHub } from '../support/closedHub.ts'
import { countAtHub } from '../support/e2eAtHub.ts'
import { openTablet, serveWithHub, setClock, type Tablet } from '../support/e2eClinic.ts'
import { addOrders, rowOf } from '../support/e2eDay.ts'
import { firstOf, goThrough, onScreen, type OnScreen } from '../support/e2eDraw.ts'
import {
  allThere,
  begin,
  byKeys,
  byVoice,
  click,
  DAY_ms,
  found,
  pageOf,
  home,
  HOUR_ms,
  letIn,
  line,
  MORE,
  ordersOf,
  closedElsewhere,
  SOON,
  isDoneOn,
  stopAt,
  takeOver,
  THREE,
  toPlan,
} from '../support/e2eHubDay.ts'
import { readLog } from '../support/e2eLog.ts'
import { connected } from '../support/hubRig.ts'
import type { ServedApp } from '../support/e2eSite.ts'
import { NATS_SERVER } from '../support/natsProcess.ts'
import { useQuickLimits } from '../support/quickLimits.ts'
import { sha256 } from '../support/sampleLog.ts'

let hub: ClosedHub
let app: ServedApp
let reader: Hub
let a: Tablet
let b: Tablet
let bench: Tablet
/** Each draw as the tablet that wrote it last has it. */
const records = new Map<string, readonly LogEntry[]>()

const keep = async ({ page }: Tablet, drawId: string): Promise<void> =>
  void records.set(drawId, await readLog(page, drawId))

/** Nothing lost, nothing doubled, nothing in the wrong place: counted at the hub, past the app. */
async function allAtHub(): Promise<void> {
  await expect
    .poll(() => countAtHub(reader, records), SOON)
    .toMatchObject({ lost: 0, doubled: 0, wrongOrder: 0 })
  for (const log of records.values()) expect(checkChain(log, sha256)).toBeUndefined()
}

describe.skipIf(!NATS_SERVER)('a clinic of two chairs and a bench', () => {
  beforeAll(async () => {
    hub = await closedHub()
    app = await serveWithHub(hub)
    reader = await connected(hub.hub('R', await hub.pass('reader', 'R')))
    bench = await openTablet('Bench', app, hub, { isDeaf: true })
    a = await openTablet('Chair 1', app, hub)
    b = await openTablet('Chair 2', app, hub, { isDeaf: true })
    for (const { page } of [a, b]) await useQuickLimits(page)
  }, 400_000)
  afterAll(async () => {
    for (const tablet of [a, b, bench]) {
      await tablet?.browser.close()
      await tablet?.line.end()
    }
    await reader?.stop()
    app?.end()
    await hub?.server.remove()
  }, 60_000)

  test('the first desk founds it, and lets two chairs in by a code', async () => {
    await found(bench, hub.deskFile)
    for (const tablet of [a, b]) await letIn(bench, tablet)
    await bench.page.goto(app.baseUrl)
    await allThere(bench.page)
  }, 180_000)

  test('orders that are listed at one stand on the list of all', async () => {
    await addOrders(
      bench.page,
      'orders.csv',
      ordersOf(['Ada First', 'Ben Second', 'Cleo Third'], 1960),
    )
    for (const { page } of [bench, a, b])
      for (const name of ['Ada First', 'Ben Second', 'Cleo Third'])
        await rowOf(page, name).waitFor()
  }, 60_000)

  test('of two that begin one order at once, one draws it and the other is told who does', async () => {
    await Promise.all([toPlan(a.page, 'Ben Second'), toPlan(b.page, 'Ben Second')])
    await Promise.all([a, b].map(({ page }) => click(page, 'Start the draw')))
    const isDrawing = async ({ page }: Tablet): Promise<boolean> =>
      (await page.locator('.draw #step-instruction').count()) > 0
    await expect
      .poll(async () => [await isDrawing(a), await isDrawing(b)].filter(Boolean).length, SOON)
      .toBe(1)
    const [winner, loser] = (await isDrawing(a)) ? [a, b] : [b, a]
    await line(loser.page, `${winner.name} is just beginning this draw`)
    const { drawId } = firstOf(await readLog(winner.page), 'drawOpened').event
    await goThrough(winner.page, { patient: false, confirm: byKeys(winner.page) })
    await home(winner)
    await keep(winner, drawId)
    await loser.page.goto(app.baseUrl)
    await allThere(loser.page)
    await allAtHub()
  }, 180_000)

  test('the hub dies in a draw by voice: the draw does not wait, and is at the hub whole afterwards', async () => {
    const { page } = a
    const drawId = await begin(a, 'Ada First')
    await page.locator('.listening.listening').getByText('Listening').waitFor({ timeout: 60_000 })
    await click(b.page, /^Look on at the draw of/)
    await b.page.locator('.draw #step-instruction').waitFor()
    const look = async ({ phrase }: OnScreen): Promise<'stop' | undefined> =>
      phrase === 'tube complete' ? 'stop' : undefined
    await goThrough(page, { patient: true, look, confirm: byVoice(page) })
    // B sees where A is.
    const step = await onScreen(page)
    await expect
      .poll(() => b.page.locator('.draw').getAttribute('data-step'), SOON)
      .toBe(step?.step)
    await hub.server.kill()
    await line(page, /working alone since/)
    let steps = 0
    await goThrough(page, {
      patient: true,
      look: async () => ((steps += 1) > 4 ? 'stop' : undefined),
      confirm: byVoice(page),
    })
    await hub.server.start()
    await goThrough(page, { patient: true, confirm: byVoice(page) })
    await home(a)
    await keep(a, drawId)
    await allAtHub()
    await b.page
      .locator('.draw .closed')
      .waitFor(SOON)
      .catch(async () => {
        throw new Error(await pageOf(b))
      })
    await home(b)
  }, 600_000)

  test('the bench turns the tubes of both, each act once, charted by the chair that drew', async () => {
    const { page } = bench
    await page.locator('.places button').filter({ hasText: 'Bench' }).first().click()
    await page.locator('.benchRow').first().waitFor(SOON)
    await page
      .getByRole('button', { name: /^In the spin \(2\)/ })
      .first()
      .click()
    for (const drawId of records.keys()) {
      const of = async (): Promise<number> => {
        const logs = await Promise.all([a, b].map((tablet) => readLog(tablet.page, drawId)))
        return logs.flat().filter(({ event }) => event.type === 'spinStarted').length
      }
      await expect.poll(of, { ...SOON, message: drawId }).toBe(1)
      for (const tablet of [a, b]) {
        const log = await readLog(tablet.page, drawId)
        if (log.length > 0) records.set(drawId, log)
      }
    }
    await allAtHub()
  }, 120_000)

  test('a draw is handed over from chair to chair, by name', async () => {
    const drawId = await begin(a, 'Cleo Third')
    await goThrough(a.page, {
      patient: false,
      look: stopAt('cleanse'),
      confirm: byKeys(a.page),
    })
    await click(b.page, /^Look on at the draw of/)
    await takeOver(b)
    await expect.poll(async () => (await readLog(b.page, drawId)).length, SOON).toBeGreaterThan(0)
    await line(a.page, /Chair 2 has taken this draw over/)
    await goThrough(b.page, { patient: false, confirm: byKeys(b.page) })
    await home(b)
    await home(a)
    const log = await readLog(b.page, drawId)
    const notes = log.flatMap(({ event }) => (event.type === 'noteAdded' ? [event.text] : []))
    expect(notes.join()).toContain('handed over from Chair 1 to Chair 2')
    await keep(b, drawId)
    await allAtHub()
  }, 180_000)

  test('an old copy of the hub’s disk is filled up again by the tablets', async () => {
    await bench.page.goto(app.baseUrl)
    await addOrders(bench.page, 'more.csv', ordersOf(MORE, 1970))
    const back = await hub.server.copyDisk()
    const drawId = await begin(a, 'Dora Fourth')
    await goThrough(a.page, { patient: false, confirm: byKeys(a.page) })
    await home(a)
    await keep(a, drawId)
    await allAtHub()
    await hub.server.kill()
    back()
    await hub.server.start()
    await allAtHub()
    await allThere(a.page)
  }, 180_000)

  test('a tablet that was alone for a day with three draws brings them when it is back', async () => {
    for (const name of THREE) await rowOf(b.page, name).waitFor()
    b.line.cut()
    const drawIds: string[] = []
    for (const name of THREE) {
      const drawId = await begin(b, name)
      await line(b.page, /working alone since/)
      await goThrough(b.page, { patient: false, confirm: byKeys(b.page) })
      await home(b)
      await keep(b, drawId)
      drawIds.push(drawId)
    }
    expect((await countAtHub(reader, records)).lost).toBeGreaterThan(60)
    // A day later, and still alone.
    await setClock(b, DAY_ms)
    await line(b.page, /^Working alone since/)
    b.line.mend()
    await allAtHub()
    await allThere(b.page)
    for (const drawId of drawIds)
      await expect.poll(async () => (await closedElsewhere(a)).includes(drawId), SOON).toBe(true)
    await setClock(b, 0)
  }, 300_000)

  test('two tablets on one draw: what the cut-off one goes on with is in no record, and is told', async () => {
    const drawId = await begin(a, 'Hugo Eighth')
    await goThrough(a.page, { patient: false, look: stopAt('cleanse'), confirm: byKeys(a.page) })
    // Who draws is asked again after a day; a plan that is not drawn is where it is said.
    await toPlan(b.page, 'Ines Ninth')
    await b.page.goto(app.baseUrl)
    await click(b.page, /^Look on at the draw of/)
    await b.page.locator('.draw #step-instruction').waitFor()
    await expect
      .poll(
        async () =>
          (await countAtHub(reader, new Map([[drawId, await readLog(a.page, drawId)]]))).lost,
        SOON,
      )
      .toBe(0)
    a.line.cut()
    await line(a.page, /working alone since/)
    await takeOver(b)
    await expect
      .poll(async () => (await readLog(b.page, drawId)).length, SOON)
      .toBeGreaterThan(0)
      .catch(async () => {
        throw new Error(await pageOf(b))
      })
    await goThrough(a.page, { patient: false, look: stopAt('needle'), confirm: byKeys(a.page) })
    await goThrough(b.page, { patient: false, confirm: byKeys(b.page) })
    const own = await readLog(a.page, drawId)
    a.line.mend()
    await line(a.page, /Chair 2 has taken this draw over|closed/)
    await home(a)
    await line(
      a.page,
      new RegExp(
        `entr(y|ies) of this device (is|are) not in the record of draw ${drawId}: Chair 2`,
      ),
    )
    // Nothing of it is gone from the tablet.
    expect((await readLog(a.page, drawId)).slice(0, own.length)).toEqual(own)
    await home(b)
    await keep(b, drawId)
    await allAtHub()
  }, 240_000)

  test('a tablet whose clock is an hour off draws what is listed, once, and all read it', async () => {
    await setClock(b, HOUR_ms)
    await allThere(b.page)
    const drawId = await begin(b, 'Ines Ninth')
    await goThrough(b.page, { patient: false, confirm: byKeys(b.page) })
    await home(b)
    await keep(b, drawId)
    await allAtHub()
    await expect.poll(async () => (await closedElsewhere(a)).includes(drawId), SOON).toBe(true)
    await expect.poll(() => isDoneOn(a, 'Ines Ninth'), SOON).toBe(true)
    await setClock(b, 0)
  }, 180_000)

  test('nothing went wrong on any of the pages, and nothing is lost, doubled or out of order', async () => {
    const count = await countAtHub(reader, records)
    console.log(`${records.size} draws, ${JSON.stringify(count)}`)
    expect(count).toMatchObject({ lost: 0, doubled: 0, wrongOrder: 0 })
    expect([a, b, bench].map(({ faults }) => faults)).toEqual([[], [], []])
  })
})
