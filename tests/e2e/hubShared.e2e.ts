/** A desk gives its site's data to a chair through a real nats-server, under the real policy of the page. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import texts from '../../src/data/en/clinic.json' with { type: 'json' }
import { closedHub, type ClosedHub } from '../support/closedHub.ts'
import { openTablet, serveWithHub, type Tablet } from '../support/e2eClinic.ts'
import { allThere, click, found, letIn, line, SOON, toClinic } from '../support/e2eHubDay.ts'
import type { ServedApp } from '../support/e2eSite.ts'
import { NATS_SERVER } from '../support/natsProcess.ts'
import { useQuickLimits } from '../support/quickLimits.ts'

let hub: ClosedHub
let app: ServedApp
let desk: Tablet
let chair: Tablet

describe.skipIf(!NATS_SERVER)('what a clinic has in common', () => {
  beforeAll(async () => {
    hub = await closedHub()
    app = await serveWithHub(hub)
    desk = await openTablet('Desk', app, hub, { isDeaf: true })
    chair = await openTablet('Chair 1', app, hub, { isDeaf: true })
    await useQuickLimits(chair.page)
    await found(desk, hub.deskFile)
    await letIn(desk, chair)
  }, 300_000)
  afterAll(async () => {
    for (const tablet of [desk, chair]) {
      await tablet?.browser.close()
      await tablet?.line.end()
    }
    app?.end()
    await hub?.server.remove()
  }, 60_000)

  test('is given at the desk, waits at the chair, and counts there after its next start', async () => {
    for (const { page } of [chair, desk]) {
      await page.goto(app.baseUrl)
      await allThere(page)
    }
    await toClinic(desk.page)
    await click(desk.page, texts.shared.give)
    await click(desk.page, texts.setup.devices.yes)
    await line(desk.page, texts.setup.done.share)

    // The chair had limits of its own; all else was the same.
    await line(chair.page, texts.shared.news.replace('{whats}', texts.shared.whats.policy))
    const loaded = chair.page.waitForEvent('load', SOON)
    await click(chair.page, texts.shared.use)
    await loaded
    await toClinic(chair.page)
    await line(chair.page, `${texts.shared.whats.policy}: edition 1, given by “${desk.name}”.`)
    expect(await chair.page.getByRole('button', { name: texts.shared.use }).count()).toBe(0)
    expect([desk, chair].map(({ faults }) => faults)).toEqual([[], []])
  }, 120_000)
})
