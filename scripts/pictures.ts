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

/** Presses the keys of the invented demonstration, in the order in which the screen asks for them. */
async function press(page: Page, keys: readonly string[]): Promise<void> {
  for (const key of keys) {
    await page.keyboard.press(key)
    await page.waitForTimeout(250)
  }
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
  await page.waitForTimeout(3000)
  await picture(page, 'draw-identity')
  await press(page, [
    'Space',
    'Space',
    'Space',
    'Space',
    'Space',
    '1',
    '1',
    'Space',
    'Space',
    'Space',
  ])
  await page.waitForTimeout(4000)
  await picture(page, 'draw-needle')
  await press(page, ['Space', 'Space', 'Space'])
  await picture(page, 'draw-filling')
  await page.getByRole('button', { name: /Sharp pain/ }).click()
  await picture(page, 'draw-sharp-pain')
  await press(page, ['Backspace'])
  await press(page, [
    'Space',
    'Space',
    'Space',
    'Space',
    'Space',
    'Space',
    'Space',
    'Space',
    'Space',
    'Space',
    'Space',
  ])
  await picture(page, 'draw-after')
  await press(page, ['Space', 'Space', 'Space', 'Space', 'Space', 'Space', 'Space', 'Space'])
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
