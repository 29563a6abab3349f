import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, inject, test } from 'vitest'
import { openBrowser, type OpenBrowser } from '../support/e2eBrowser.ts'

let browser: OpenBrowser

const newPage = async (): Promise<Page> => {
  const page = await browser.context.newPage()
  await page.goto(inject('baseUrl'))
  return page
}
const press = (page: Page, name: string): Promise<void> =>
  page.getByRole('button', { name }).first().click()
const settingsOf = async (page: Page): Promise<string> => {
  await press(page, 'Settings')
  return page.locator('.ownVoice').innerText()
}

beforeAll(async () => {
  browser = await openBrowser({ isDeaf: true })
})
afterAll(() => browser.close())

test('a round of learning is kept over a reload and seen by another tab, and deleted for good', async () => {
  const page = await newPage()
  await press(page, 'Microphone check')
  await press(page, 'Say who draws')
  await page.getByLabel('Your name').fill('Robin Example')
  await press(page, 'I draw')
  await press(page, 'Find my best wordings')
  const skip = page.getByRole('button', { name: 'Not heard, go on' })
  await skip.waitFor({ timeout: 60_000 })
  for (let asked = 1; asked <= 12; asked++) {
    await page.getByText(`Phrase ${asked} of 12. Say:`).waitFor()
    await skip.click()
  }
  await page.getByText('0 of 12 phrases were heard right.').waitFor()
  await page.getByText('Every wording that was counted').click()
  expect(await page.getByRole('row', { name: /identity confirmed/ }).innerText()).toMatch(/0 of 1/)

  await page.reload()
  expect(await settingsOf(page)).toContain('12 wordings were said too rarely')

  const other = await newPage()
  expect(await settingsOf(other)).toContain('12 wordings were said too rarely')
  await press(other, 'Delete my numbers')
  await other.getByRole('button', { name: 'Delete', exact: true }).click()
  await other.getByText('Nothing is known of your voice here yet.').waitFor()
  await page.reload()
  expect(await settingsOf(page)).toContain('Nothing is known of your voice here yet.')
})
