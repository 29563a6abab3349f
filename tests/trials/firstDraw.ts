import type { Page } from 'playwright-core'
import { followScreen } from './followScreen.ts'
import type { Novice } from './novice.ts'

/** What a ward would write on a slip, and the name under which the catalog has it. */
const TESTS = [
  ['U&E', 'panel'], ['FBC', 'Complete blood count'], ['LFT', 'Liver panel'], ['clotting', 'Prothrombin'],
  ['CRP', 'C-reactive'], ['TSH', 'Thyroid'], ['glucose', 'Glucose'],
] as const // prettier-ignore

/** The first real draw on a device that knows nobody: an invented order of seven tests, typed in by hand. */
export async function firstDraw(page: Page, novice: Novice): Promise<void> {
  await novice.presses('New draw')
  await novice.types('Family name', 'Quince')
  await novice.types('Given names', 'Marlo')
  await novice.types('Day', '31')
  await novice.types('Month', 'May')
  await novice.types('Year', '1980')
  await novice.types('Record number', '00417')
  await novice.types('Weight, kg', '60')
  await novice.types('Order number', 'X-2001')
  for (const [typed, wanted] of TESTS) {
    await novice.types('Tests ordered', typed)
    await page.waitForTimeout(200)
    const options = await page.getByRole('listbox').getByRole('option').allInnerTexts()
    if (!options[0]?.includes(wanted)) {
      novice.hesitates(`"${typed}" offers "${options[0]?.split('\n')[0] ?? 'nothing'}" first`)
    }
    const marked = page.getByRole('listbox').locator('[aria-selected="true"]')
    if ((await marked.count()) === 0) {
      novice.hesitates(`"${typed}" marks nothing: one must be chosen`)
      await novice.key('ArrowDown')
    }
    await novice.key('Enter')
  }
  await novice.presses('Plan the tubes')
  await untilPlanned(page)
  if ((await page.getByLabel('Your name').count()) > 0) {
    await novice.types('Your name', 'Robin Sample')
    await novice.presses('I draw')
  }
  await novice.presses('Start the draw')
  await page.locator('[data-screen="draw"]').waitFor()
  await followScreen(page, novice)
  await novice.presses('Read the chart note', 'chart')
}

/** @throws Error with what the form says where it cannot be planned */
async function untilPlanned(page: Page): Promise<void> {
  const planned = page
    .getByRole('button', { name: 'Start the draw' })
    .or(page.getByLabel('Your name'))
  const refused = page.getByRole('alert')
  await planned.or(refused).first().waitFor()
  if ((await planned.count()) > 0) return
  throw new Error(`The order is not planned: ${(await refused.allInnerTexts()).join(' ')}`)
}
