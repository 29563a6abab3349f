// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it, vi } from 'vitest'
import { createTestSearch } from '../../../src/core/catalogue/testSearch.ts'
import { catalogueJson, tubesCsv } from '../../../src/app/site/catalogue/writeCatalogue.ts'
import { intakeFor, SERVICES } from '../../support/fakeServices.ts'
import { shippedSite } from '../../support/site.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

// A few rows: axe takes seconds over the whole catalog in jsdom.
const catalogue = {
  ...shippedSite.catalogue,
  tests: shippedSite.catalogue.tests.slice(0, 5),
  tubes: shippedSite.catalogue.tubes.slice(0, 6),
}

const site = { ...shippedSite, catalogue }

const search = createTestSearch(catalogue)
const searchTests = (typed: string) =>
  search(typed).map(({ test, ...how }) => ({ ...test, ...how }))

async function show(text?: string) {
  const saveText = vi.fn()
  const app = renderApp(
    { screen: { name: 'catalogue' } },
    { site, searchTests, intake: intakeFor(site), page: { ...SERVICES.page, saveText } },
  )
  if (text !== undefined) {
    const file = new File([text], 'tubes.csv', { type: 'text/csv' })
    await userEvent.upload(screen.getByLabelText('Choose a catalog file'), file)
    await screen.findByRole('status')
  }
  return { calls: app.calls, saveText }
}

describe('the catalog screen', { timeout: 30_000 }, () => {
  it('finds a test by its name, by another name of it and by its code', async () => {
    await show()
    const list = screen.getByRole('list', { name: 'Tests' })
    const find = screen.getByRole('searchbox', { name: /^Find a test/ })
    for (const test of catalogue.tests) {
      for (const typed of [test.name, test.code, ...test.aliases.slice(0, 1)]) {
        await userEvent.clear(find)
        await userEvent.click(find)
        await userEvent.paste(typed)
        expect(within(list).getAllByText(test.name).length, typed).toBeGreaterThan(0)
      }
    }
    await userEvent.clear(find)
    await userEvent.click(find)
    await userEvent.paste('qqqq')
    expect(within(list).queryAllByRole('listitem')).toEqual([])
    expect(screen.getByText(`0 of ${catalogue.tests.length} tests`)).toBeTruthy()
  })

  it('shows one closed line for each test, with the rest on opening', async () => {
    await show()
    const list = screen.getByRole('list', { name: 'Tests' })
    const rows = [...list.querySelectorAll('details')]
    expect(rows).toHaveLength(catalogue.tests.length)
    expect(rows.every((row) => !row.open)).toBe(true)
    expect(list.textContent).toContain(catalogue.tests[0]?.source)
  })

  it('shows every test and tube with its source, and has no accessibility faults', async () => {
    await show()
    const rows = (name: string) =>
      within(screen.getByRole('list', { name })).getAllByRole('listitem')
    expect(rows('Tests')).toHaveLength(catalogue.tests.length)
    expect(rows('Tubes')).toHaveLength(catalogue.tubes.length)
    expect(rows('Tubes')[3]?.textContent).toContain('CLSI H21')
    expect(await axeFindings()).toEqual([])
  })

  it('looks at the chosen file and offers nothing to accept where it cannot be used', async () => {
    const { calls } = await show('code\n')
    expect(screen.getByRole('heading', { name: 'tubes.csv' })).toBeTruthy()
    expect(screen.queryByRole('button', { name: 'Accept these changes' })).toBeNull()
    expect(calls).toEqual([])
  })

  it('names faults by row and column and does not let them through', async () => {
    await show(tubesCsv(catalogue.tubes).replace(',citrate,', ',honey,'))
    const faults = screen.getByRole('table', { name: 'Faults' })
    expect(within(faults).getAllByRole('row')[1]?.textContent).toBe(
      'tubes4additive"honey" is not a known additive.',
    )
    expect(screen.getByRole('status').textContent).toContain('nothing was changed')
    expect(screen.queryByRole('button', { name: 'Accept these changes' })).toBeNull()
    expect(await axeFindings()).toEqual([])
  })

  it('lists changes and accepts or leaves them', async () => {
    const [first, ...rest] = catalogue.tubes
    const changed = [{ ...first!, nominal_mL: 9 }, ...rest]
    const { calls } = await show(tubesCsv(changed))
    expect(screen.getByRole('list', { name: 'Changes to tubes' }).textContent).toBe(
      `Changed: ${first!.code} (nominal_mL)`,
    )
    await userEvent.click(screen.getByRole('button', { name: 'Accept these changes' }))
    await userEvent.click(screen.getByRole('button', { name: 'Leave it as it is' }))
    expect(calls).toEqual([['keepCatalogue', catalogueJson({ ...catalogue, tubes: changed })]])
    expect(screen.queryByRole('button', { name: 'Accept these changes' })).toBeNull()
  })

  it('exports tests, tubes or both, and goes back', async () => {
    const { calls, saveText } = await show()
    for (const name of ['Save tests as CSV', 'Save tubes as CSV', 'Save both as JSON']) {
      await userEvent.click(screen.getByRole('button', { name }))
    }
    await userEvent.click(screen.getByRole('button', { name: 'Back to the start' }))
    expect(saveText.mock.calls.map(([file]: { name: string }[]) => file?.name)).toEqual([
      'tests.csv',
      'tubes.csv',
      'catalog.json',
    ])
    expect(calls).toEqual([['go', { name: 'home' }]])
  })
})
