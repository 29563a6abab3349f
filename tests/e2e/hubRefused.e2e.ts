/** What a device of a clinic is told that is refused or lied to, in Chromium with a real nats-server; no draw ends by it. */
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import clinic from '../../src/data/en/clinic.json' with { type: 'json' }
import { hubSiteText } from '../../src/core/hub/hubSite.ts'
import { checkChain } from '../../src/core/log/checkChain.ts'
import type { Hub } from '../../src/ports/hub.ts'
import { CLOSED_CLINIC, certificateOf, inHours, type ClosedHub } from '../support/closedHub.ts'
import type { Tablet } from '../support/e2eClinic.ts'
import { allThere, line, SOON } from '../support/e2eHubDay.ts'
import {
  atHub_n,
  clinicSays,
  goOn,
  openDraw,
  PATIENT,
  sameAtHub,
  startAnew,
  toSettings,
  toStart,
  wholeDraw,
} from '../support/e2eHubAttacks.ts'
import { readLog } from '../support/e2eLog.ts'
import { NATS_SERVER } from '../support/natsProcess.ts'
import type { NodeDesk } from '../support/nodeDesk.ts'
import { sha256 } from '../support/sampleLog.ts'
import { clinicOfTwo, type ClinicOfTwo } from '../support/clinicOfTwo.ts'
import type { ServedApp } from '../support/e2eSite.ts'

const SHORT_s = 40
let here: ClinicOfTwo
let hub: ClosedHub
let app: ServedApp
let desk: NodeDesk
let reader: Hub
let a: Tablet
let b: Tablet
/** So long the passes count that the desk signs. */
let life_s = 86_400

describe.skipIf(!NATS_SERVER)('a device of a clinic that is refused or lied to', () => {
  beforeAll(async () => {
    here = await clinicOfTwo(() => life_s)
    ;({ hub, app, desk, reader, a, b } = here)
  }, 400_000)
  beforeEach(async () => {
    for (const { page } of [a, b]) await page.goto(app.baseUrl)
  })
  afterEach(() => here.closeFresh(), 60_000)
  afterAll(() => here?.end(), 60_000)

  test.each([
    ['is no JSON', (): string => 'hello', 'json'],
    ['is huge', (): string => served().padEnd(3_000_000), 'shape'],
    ['has a wrong address', (): string => served().replace('wss://', 'https://'), 'address'],
    ['is of another clinic', (): string => served('Another clinic'), 'otherClinic'],
  ] as const)(
    'a file of the site’s hub that %s is refused in words',
    async (_, text, fault) => {
      const lie = async (page: Page): Promise<void> => {
        await page.route('**/hub.json', (route) => route.fulfill({ body: text() }))
        await page.goto(app.baseUrl)
        await page.locator('h1').first().waitFor()
      }
      // A device that has joined goes on with what it has.
      await lie(a.page)
      await allThere(a.page)
      await clinicSays(a.page, clinic.setup.siteFaults[fault])
      await line(a.page, clinic.setup.keptSite)
      await a.page.unroute('**/hub.json')
      await startAnew(a.page, app.baseUrl)
      if (fault === 'otherClinic') return
      const c = await here.fresh('Chair 4')
      await lie(c.page)
      await toSettings(c.page)
      await toClinicAnyhow(c.page)
      await line(c.page, clinic.setup.badSite)
      await line(c.page, clinic.setup.siteFaults[fault])
      // That it draws all the same is tried once.
      if (fault !== 'shape') return
      await c.page.goto(app.baseUrl)
      const drawId = await wholeDraw(c.page)
      expect((await readLog(c.page, drawId)).length).toBeGreaterThan(20)
    },
    240_000,
  )

  test('a pass that is cut off in a draw is told, the draw goes on, and what it records is kept', async () => {
    const c = await here.fresh('Chair 5')
    const id = await desk.letIn(c)
    await allThere(c.page)
    const drawId = await openDraw(c.page)
    await expect.poll(() => atHub_n(reader, drawId), PATIENT).toBeGreaterThan(0)
    await desk.acts.revoke(id)
    await c.page.getByText(clinic.short.refused).first().waitFor(PATIENT)
    await goOn(c.page)
    await toStart(c.page)
    await line(c.page, clinic.refusals.revoked)
    expect(checkChain(await readLog(c.page, drawId), sha256)).toBeUndefined()
    expect(await atHub_n(reader, drawId)).toBeLessThan((await readLog(c.page, drawId)).length)
    await clinicSays(c.page, clinic.setup.join.again)
  }, 240_000)

  test('a pass that runs out in a draw is told, the draw goes on, and joining again sends the rest', async () => {
    const c = await here.fresh('Chair 6')
    life_s = SHORT_s
    await desk.letIn(c)
    life_s = 86_400
    await allThere(c.page)
    const drawId = await openDraw(c.page)
    await c.page.getByText(clinic.short.refused).first().waitFor(PATIENT)
    await goOn(c.page)
    await toStart(c.page)
    await line(c.page, /(pass of this device|the pass) has run out/)
    await desk.letIn(c)
    await allThere(c.page)
    await sameAtHub(reader, c, drawId)
  }, 240_000)

  test('a certificate that has run out is no end of a draw: it works alone, says so, and sends later', async () => {
    const drawId = await openDraw(b.page)
    const old = await certificateOf(CLOSED_CLINIC, inHours(-2), inHours(-1))
    await desk.end()
    await hub.setCertificate(old.server, old.authority.certificate)
    await b.page
      .getByText(/working alone since/)
      .first()
      .waitFor(PATIENT)
    await goOn(b.page)
    await toStart(b.page)
    await line(b.page, /Working alone since .* wait for the hub/)
    expect((await readLog(b.page, drawId)).length).toBeGreaterThan(20)
  }, 240_000)

  test('nothing else went wrong on the pages', () => {
    expect([a, b].map(({ faults }) => faults)).toEqual([[], []])
  })
})

const served = (clinic = CLOSED_CLINIC): string =>
  hubSiteText({
    clinic,
    servers: ['wss://hub.stillhand.test:9222'],
    joiningJwt: hub.keys.joiningJwt,
  })

async function toClinicAnyhow(page: Page): Promise<void> {
  const section = page.getByRole('group', { name: clinic.setup.title, exact: true })
  await section.getByRole('button', { name: clinic.setup.open, exact: true }).click(SOON)
}
