/** Makes the pictures of the README from the built app: `npm run pictures`. */
import { mkdirSync } from 'node:fs'
import type { AddressInfo } from 'node:net'
import { chromium, type Page } from 'playwright-core'
import type { StepId } from '../src/core/protocol/steps.ts'
import words from '../src/data/en/words.json' with { type: 'json' }
import { staticServer } from './build/staticServer.ts'
import { needChromium } from './findChromium.ts'

const OUT = 'pictures'

async function picture(page: Page, name: string): Promise<void> {
  await page.waitForTimeout(500)
  await page.screenshot({ path: `${OUT}/${name}.png` })
}

/** Most steps that a draw of the demonstration can have. */
const MOST_STEPS_n = 80

/** Does what the screen asks for, one step after another, until `wanted` is the step shown. */
async function goOnTo(page: Page, wanted: StepId): Promise<void> {
  const title = page.locator('.draw .step .title')
  const main = page.locator('.draw .answers .choice.main')
  for (let steps = 0; steps < MOST_STEPS_n; steps++) {
    if ((await title.first().textContent())?.trim() === words.steps[wanted].title) return
    await press(page, (await main.count()) > 0 ? 'Space' : '1')
  }
  throw new Error(`The draw does not come to the step "${wanted}".`)
}

/** Does what the screen asks for until the draw is closed. */
async function goOnToClose(page: Page): Promise<void> {
  const closed = page.locator('.draw .closed')
  const main = page.locator('.draw .answers .choice.main')
  for (let steps = 0; steps < MOST_STEPS_n; steps++) {
    if ((await closed.count()) > 0) return
    await press(page, (await main.count()) > 0 ? 'Space' : '1')
  }
  throw new Error('The draw does not come to its end.')
}

async function press(page: Page, key: string): Promise<void> {
  await page.keyboard.press(key)
  // Longer than the wait after a figure, which may be the start of a scan.
  await page.waitForTimeout(400)
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
  await picture(page, 'home')
  await page.getByRole('button', { name: 'Try the invented demo' }).click()
  await picture(page, 'order')
  await page.getByRole('button', { name: 'Plan the tubes' }).click()
  await picture(page, 'plan')
  await page.getByRole('button', { name: 'Start the draw' }).click()
  await page.locator('.draw #step-instruction').waitFor()
  await page.waitForTimeout(3000)
  await picture(page, 'draw-identity')
  await goOnTo(page, 'needle')
  await page.waitForTimeout(4000)
  await picture(page, 'draw-needle')
  await goOnTo(page, 'filling')
  await picture(page, 'draw-filling')
  await page.getByRole('button', { name: /^Sharp pain/ }).click()
  await picture(page, 'draw-sharp-pain')
  await press(page, 'Backspace')
  await goOnTo(page, 'bleeding')
  await picture(page, 'draw-after')
  await goOnToClose(page)
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
