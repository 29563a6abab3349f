/** Makes the pictures of the README from the built app: `npm run pictures`. */
import { mkdirSync } from 'node:fs'
import type { AddressInfo } from 'node:net'
import { chromium, type Page } from 'playwright-core'
import { staticServer } from './build/staticServer.ts'
import { needChromium } from './findChromium.ts'

const OUT = 'pictures'

async function picture(page: Page, name: string): Promise<void> {
  await page.waitForTimeout(500)
  await page.screenshot({ path: `${OUT}/${name}.png` })
}

const CLOSED = 'the draw is closed'

/** Does what the screen asks for, the first choice where it leaves one, until it asks for that phrase. */
async function goTo(page: Page, phrase: string): Promise<void> {
  for (let presses = 0; presses < 80; presses++) {
    const isClosed = (await page.locator('.draw .closed').count()) > 0
    const main = page.locator('.draw .choice.main').first()
    const asked = (await main.count()) > 0 ? await main.innerText() : ''
    if (phrase === CLOSED ? isClosed : asked.includes(phrase)) return
    if (isClosed) break
    await (asked === '' ? page.locator('.draw [data-place="answer"]').first() : main).click()
    await page.waitForTimeout(250)
  }
  throw new Error(`The draw does not come to "${phrase}".`)
}

async function main(): Promise<void> {
  mkdirSync(OUT, { recursive: true })
  const server = staticServer('dist')
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  const { port } = server.address() as AddressInfo
  const browser = await chromium.launch({
    executablePath: needChromium(),
    args: ['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream'],
  })
  const page = await browser.newPage({ viewport: { width: 1180, height: 820 } })
  await page.goto(`http://localhost:${port}/`)
  await page.locator('h1').waitFor()
  await picture(page, 'home')
  await page.getByRole('button', { name: 'Try the invented demo' }).click()
  await picture(page, 'order')
  await page.getByRole('button', { name: 'Plan the tubes' }).click()
  await picture(page, 'plan')
  await page.getByRole('button', { name: 'Start the draw' }).click()
  await page.waitForTimeout(3000)
  await picture(page, 'draw-identity')
  await goTo(page, 'needle in')
  await page.waitForTimeout(4000)
  await picture(page, 'draw-needle')
  await goTo(page, 'tube complete')
  await picture(page, 'draw-filling')
  await page.getByRole('button', { name: /sharp pain/ }).click()
  await picture(page, 'draw-sharp-pain')
  await page.keyboard.press('Backspace')
  await goTo(page, 'bleeding stopped')
  await picture(page, 'draw-after')
  await goTo(page, CLOSED)
  await picture(page, 'draw-closed')
  await page.getByRole('button', { name: /chart/i }).first().click()
  await picture(page, 'chart')
  await page
    .getByRole('button', { name: /labels/i })
    .first()
    .click()
  await picture(page, 'labels')
  await browser.close()
  server.close()
}

await main()
