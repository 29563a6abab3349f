import type { Page } from 'playwright-core'

/** An invented patient and what is asked for. */
export interface InventedOrder {
  readonly fullName: string
  /** `1980-05-31`. */
  readonly birthDate: string
  readonly recordNumber: string
  /** What is typed to find each test. */
  readonly tests: readonly string[]
}

/** @param day `1980-05-31` */
export async function fillDay(page: Page, label: string, day: string): Promise<void> {
  const [year = '', month = '', date = ''] = day.split('-')
  const group = page.getByRole('group', { name: label })
  await group.getByLabel('Day').fill(date)
  await group.locator('select').first().selectOption(month)
  await group.getByLabel('Year').fill(year)
}

/** On the plan of a patient: says who draws, where it is asked. */
export async function sayWhoDraws(page: Page): Promise<void> {
  const start = page.getByRole('button', { name: 'Start the draw' })
  const asked = page.getByRole('region', { name: 'Who draws?' })
  await start.or(asked).first().waitFor()
  if ((await asked.count()) === 0) return
  await asked.getByLabel('Your name').fill('Robin Sample')
  await asked.getByRole('button', { name: 'I draw' }).click()
}

/** Types an order in by hand, from the first screen to the plan. */
export async function planByHand(page: Page, order: InventedOrder): Promise<void> {
  await page.getByRole('button', { name: /^New draw/ }).click()
  const [given = '', family = ''] = order.fullName.split(' ')
  await page.getByRole('textbox', { name: 'Family name' }).fill(family)
  await page.getByLabel('Given names').fill(given)
  await fillDay(page, 'Date of birth', order.birthDate)
  await page.getByLabel('Record number').fill(order.recordNumber)
  await page.getByLabel('Order number').fill(`O-${order.recordNumber}`)
  for (const test of order.tests) {
    await page.getByRole('combobox', { name: 'Tests ordered' }).fill(test)
    await page.keyboard.press('Enter')
  }
  await page.getByRole('button', { name: 'Plan the tubes' }).click()
  await sayWhoDraws(page)
  await page.getByRole('button', { name: 'Start the draw' }).waitFor()
}
