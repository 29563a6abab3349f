/** A device and its site's record server: fetched from, sent to, through all that may come between, under the real policy. */
import { readFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import texts from '../../src/data/en/handOver.json' with { type: 'json' }
import { rowOf } from '../support/e2eDay.ts'
import { click, line, SOON } from '../support/e2eHubDay.ts'
import {
  CATEGORY,
  closedDraw,
  openDraw,
  openDevice,
  siteWithRecordServer,
  toHandOver,
  type Device,
  type Site,
} from '../support/e2eRecordServer.ts'
import { layDraws } from '../support/e2eStore.ts'
import { MRN, ORDERS } from '../support/fhirTransaction.ts'
import { httpServer } from '../support/fhirHttp.ts'

let site: Site
let device: Device
let page: Page

beforeAll(async () => {
  site = await siteWithRecordServer()
  device = await openDevice(site)
  page = device.page
  await toHandOver(page)
  // As a person brings it to whoever looks after the authorization server.
  const saved = page.waitForEvent('download')
  await click(page, texts.keyFile)
  site.smart.options.jwks = await readFile(await (await saved).path(), 'utf8')
  await click(page, texts.switchOn)
  await line(page, texts.states.idle.replace('{server}', site.smart.address))
}, 240_000)
afterEach(() => {
  site.hooks.before = undefined
  site.hooks.after = undefined
})
afterAll(async () => {
  await device?.browser.close()
  await site?.end()
}, 60_000)

const create = async (type: string, resource: object): Promise<string> =>
  String(
    (await site.smart.behind.memory.create(type, { resourceType: type, ...resource })).body['id'],
  )

/** An invented patient with an order at the record server. @param category what the order is for */
async function ordered(n: number, category: string) {
  const patient = await create('Patient', {
    identifier: [{ system: MRN, value: `MRN-E2E-${n}` }],
    name: [{ family: `Ordered${n}`, given: ['Pat'] }],
    ...{ birthDate: `19${60 + n}-05-31`, gender: 'female' },
  })
  const request = await create('ServiceRequest', {
    ...{ status: 'active', intent: 'order' },
    category: [{ coding: [{ system: CATEGORY, code: category }] }],
    subject: { reference: `Patient/${patient}` },
    requisition: { system: ORDERS, value: `ORD-E2E-${n}` },
    code: { coding: [{ system: 'urn:stillhand:test', code: 'cbc' }], text: 'cbc' },
  })
  return { patient, request }
}

const until = (what: () => Promise<unknown>, is: unknown): Promise<void> =>
  expect.poll(what, SOON).toEqual(is)
const state = (name: keyof typeof texts.states): string =>
  texts.states[name].replace('{server}', site.smart.address)

/** Lays a draw down as if it had just been closed here, and starts the page again: it is looked for at once. */
async function drawn(n: number): Promise<void> {
  await layDraws(page, [closedDraw(n)])
  await page.reload()
}
const id = (n: number): string => closedDraw(n).drawId
/** How often what a draw has one of stands there: its patient, its procedure, its note. */
const standing = (n: number): Promise<readonly number[]> =>
  Promise.all(
    [
      ['Patient', `MRN-E2E-${n}`],
      ['Procedure', id(n)],
      ['DocumentReference', id(n)],
    ].map(([type, text]) => site.count(`${type}?_count=1000`, `${text}"`)),
  )
const ONCE = [1, 1, 1]

test('orders come from there into the list, and how they stand is told back', async () => {
  const { request } = await ordered(1, 'lab')
  await ordered(2, 'elsewhere')
  await click(page, texts.orders.fetch)
  await line(page, /1 new order on the list/)
  await click(page, 'Back to the start')
  await rowOf(page, 'Ordered1').waitFor(SOON)
  expect(await rowOf(page, 'Ordered2').count()).toBe(0)
  await until(
    async () =>
      (await site.smart.behind.memory.search('Task')).map(({ status, focus }) => [status, focus]),
    [['received', { reference: `ServiceRequest/${request}` }]],
  )
})

test('a draw is sent once, and not again at the next start', async () => {
  await drawn(11)
  await until(() => standing(11), ONCE)
  // The older one goes first: when the next has come, this one has been looked at again.
  await drawn(12)
  await until(() => standing(12), ONCE)
  expect(site.transactions('MRN-E2E-11"')).toHaveLength(1)
  expect(site.transactions('MRN-E2E-12"')).toHaveLength(1)
  await toHandOver(page)
  await line(page, state('idle'))
  await page.getByRole('row', { name: new RegExp(`${id(12)}.*${texts.answers.done}`) }).waitFor()
})

test('a server that is away is told in words and keeps nothing else up; once it is back it is sent', async () => {
  await site.smart.stop()
  await drawn(13)
  await toHandOver(page)
  await line(page, state('waiting'))
  await line(page, texts.access.unreachable)
  await line(page, texts.nextTry.replace('{time}.', ''))
  await click(page, 'Back to the start')
  // The list goes on: what came before stands there and can be begun.
  await rowOf(page, 'Ordered1')
    .getByRole('button', { name: /^Begin/ })
    .click()
  await page
    .getByRole('button', { name: 'Start the draw' })
    .or(page.getByRole('region', { name: 'Who draws?' }))
    .first()
    .waitFor()
  await site.smart.startAgain()
  // Nobody presses anything.
  await until(() => standing(13), ONCE)
  await page.goto(site.app.baseUrl)
  expect(site.transactions('MRN-E2E-13"')).toHaveLength(1)
})

test('what the server refuses stands on the screen in its words, and goes when it is tried again', async () => {
  const diagnostics = 'Patient MRN-E2E-14 is merged into another one.'
  site.hooks.before = async ({ body }) =>
    body.includes('MRN-E2E-14"')
      ? {
          status: 422,
          text: JSON.stringify({
            resourceType: 'OperationOutcome',
            issue: [{ severity: 'error', code: 'business-rule', diagnostics }],
          }),
        }
      : undefined
  await drawn(14)
  await toHandOver(page)
  await line(page, texts.said.replace('{text}', diagnostics))
  await line(page, texts.status.replace('{status}', '422'))
  await line(page, state('idle'))
  site.hooks.before = undefined
  await click(page, texts.againOf.replace('{what}', `${texts.kinds.draw} ${id(14)}`))
  await until(() => standing(14), ONCE)
  await page.getByText(diagnostics).waitFor({ state: 'detached' })
})

test('paused, nothing leaves; gone on with, it does', async () => {
  await click(page, texts.pause)
  await line(page, state('paused'))
  const before = site.came.length
  await drawn(15)
  await toHandOver(page)
  await line(page, state('paused'))
  expect(await page.getByRole('button', { name: texts.orders.fetch }).isDisabled()).toBe(true)
  expect(site.came.length).toBe(before)
  await click(page, texts.goOn)
  await until(() => standing(15), ONCE)
})

test.each([
  ['before the server has done it', 16, 'before'],
  ['when the server has done it and its answer is on the way', 17, 'after'],
] as const)(
  'a page that is loaded anew %s loses nothing and doubles nothing',
  async (_what, n, when) => {
    let release = (): void => undefined
    const held = new Promise<void>((done) => (release = done))
    const hold = async ({ body }: { readonly body: string }) => {
      if (body.includes(`MRN-E2E-${n}"`)) await held
      // The page that asked is gone: a server of which nothing is known any more.
      return undefined
    }
    site.hooks[when] = hold
    await drawn(n)
    await until(async () => site.transactions(`MRN-E2E-${n}"`).length, 1)
    await page.reload()
    site.hooks[when] = undefined
    await until(async () => site.transactions(`MRN-E2E-${n}"`).length, 2)
    release()
    await until(() => standing(n), ONCE)
    await toHandOver(page)
    await line(page, state('idle'))
    await page
      .getByRole('row', { name: new RegExp(`${id(n)}.*${texts.answers.unanswered}`) })
      .waitFor()
    expect(await standing(n)).toEqual(ONCE)
  },
)

test('of two tabs one sends, and the other says so', async () => {
  let release = (): void => undefined
  const held = new Promise<void>((done) => (release = done))
  site.hooks.before = async ({ body }) => {
    if (body.includes('MRN-E2E-18"')) await held
    return undefined
  }
  await drawn(18)
  await until(async () => site.transactions('MRN-E2E-18"').length, 1)
  const other = await device.browser.context.newPage()
  await other.goto(site.app.baseUrl)
  await toHandOver(other)
  await line(other, state('elsewhere'))
  release()
  await until(() => standing(18), ONCE)
  await toHandOver(page)
  await line(page, state('idle'))
  expect(site.transactions('MRN-E2E-18"')).toHaveLength(1)
  await other.close()
})

test('the page may reach that server and no other, and never tries to', async () => {
  const header = (await fetch(site.app.baseUrl)).headers.get('Content-Security-Policy') ?? ''
  const connect = /connect-src ([^;]*)/.exec(header)?.[1]
  expect(connect).toBe(`'self' ${site.smart.origin}`)
  expect(
    await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content'),
  ).toContain(`connect-src ${connect};`)
  expect(device.faults()).toEqual([])
  let came = 0
  const elsewhere = await httpServer((_request, _body, response) => {
    came++
    response.writeHead(200, { 'Access-Control-Allow-Origin': '*' }).end('{}')
  })
  const said = await page.evaluate(
    (url) =>
      fetch(url).then(
        () => 'reached',
        () => 'not reached',
      ),
    elsewhere.origin,
  )
  await elsewhere.stop()
  expect([said, came]).toEqual(['not reached', 0])
  await expect.poll(() => device.faults().join(), SOON).toContain('policy: connect-src')
})

test('opened from a chart it logs in there and lists the orders of that patient', async () => {
  const { patient } = await ordered(3, 'elsewhere')
  site.smart.options.patient = patient
  const other = await openDevice(site)
  const { page: tab } = other
  await toHandOver(tab)
  await click(tab, texts.switchOn)
  await click(tab, texts.orders.fetch)
  // Its key is known nowhere: only a chart lets it in.
  await line(tab, texts.access.refused)
  const from = site.smart.seen.length
  const chart = (launch: string, iss = site.smart.address): string =>
    `${site.app.baseUrl}/?iss=${encodeURIComponent(iss)}&launch=${launch}`
  await tab.goto(chart('L-1'))
  await rowOf(tab, 'Ordered3').waitFor(SOON)
  expect(tab.url()).toBe(`${site.app.baseUrl}/`)
  expect(await tab.evaluate(() => sessionStorage.length)).toBe(0)
  const seen = site.smart.seen.slice(from)
  const asked = seen.find(({ kind }) => kind === 'authorize')?.body
  expect(asked?.get('code_challenge_method')).toBe('S256')
  expect(asked?.get('redirect_uri')).toBe(`${site.app.baseUrl}/`)
  // RFC 6749, section 4.1: a code for a token, and the page that went there began nothing of its own.
  const grants = seen
    .filter(({ kind }) => kind === 'token')
    .map(({ body }) => body?.get('grant_type'))
  expect(grants).toEqual(['authorization_code'])

  const failed = (why: keyof typeof texts.access): Promise<void> =>
    line(tab, texts.told.launchFailed.replace('{why}', texts.access[why]))
  await tab.goto(`${site.app.baseUrl}/?code=code-1&state=made-up`)
  await failed('noLaunch')
  expect(tab.url()).toBe(`${site.app.baseUrl}/`)
  site.smart.options.denies = true
  await tab.goto(chart('L-2'))
  await failed('refused')
  await tab.goto(chart('L-3', 'https://chart.example/fhir'))
  await failed('otherServer')

  // A draw is not left for a login.
  await tab.goto(site.app.baseUrl)
  await tab.locator('h1').first().waitFor()
  await layDraws(tab, [openDraw(31)])
  const asking = (): number => site.smart.seen.filter(({ kind }) => kind === 'authorize').length
  const before = asking()
  await tab.goto(chart('L-4'))
  await failed('drawing')
  expect([tab.url(), asking()]).toEqual([`${site.app.baseUrl}/`, before])
  expect(other.faults()).toEqual([])
  await other.browser.close()
})
