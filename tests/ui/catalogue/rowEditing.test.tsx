// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { catalogueJson } from '../../../src/app/site/catalogue/writeCatalogue.ts'
import { shippedSite } from '../../support/site.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const { catalogue: whole } = shippedSite
const catalogue = {
  ...whole,
  tests: whole.tests.slice(0, 3),
  tubes: whole.tubes.slice(0, 5),
  series: [],
  doses: [],
  preferences: [],
}
const site = { ...shippedSite, catalogue, shippedCatalogue: catalogue }
const [firstTest] = catalogue.tests
const [firstTube] = catalogue.tubes

const show = (change: Partial<typeof site> = {}, stock = site.stock.slice(0, 0)) =>
  renderApp({ screen: { name: 'catalogue' }, stock }, { site: { ...site, ...change } })

async function open(list: 'Tests' | 'Tubes', name: string | undefined, button: string) {
  const rows = within(screen.getByRole('list', { name: list })).getAllByRole('listitem')
  const row = rows.find(({ textContent }) => textContent?.startsWith(`${name} `))
  const summary = row?.querySelector('summary')
  if (row && summary) {
    expect(within(row).queryByRole('button', { name: button })).toBeNull()
    await userEvent.click(summary)
    await userEvent.click(await within(row).findByRole('button', { name: button }))
  }
  return within(await screen.findByRole('form'))
}

async function write(field: HTMLElement, cell: string) {
  await userEvent.clear(field)
  if (cell !== '') await userEvent.type(field, cell)
}

const press = (name: string) => userEvent.click(screen.getByRole('button', { name }))

describe('the catalog changed in place', { timeout: 30_000 }, () => {
  it('puts a row in after the same checks, shows what changes, and keeps it when accepted', async () => {
    const { calls } = show()
    const form = await open('Tubes', firstTube?.name, 'Change this row')
    expect(document.activeElement?.textContent).toBe(`Change ${firstTube?.name}, row 1`)
    expect(form.getByText('Nothing is changed yet.')).toBeTruthy()
    await write(form.getByLabelText('Least fill, %'), '85')
    expect(form.getByText('Was 80, becomes 85')).toBeTruthy()
    await userEvent.keyboard('{Enter}')
    expect(screen.getByRole('list', { name: 'Changes to tubes' }).textContent).toBe(
      `Changed: ${firstTube?.code} (leastFill_pct)`,
    )
    expect(calls).toEqual([])
    await press('Accept these changes')
    const tubes = catalogue.tubes.map((tube, at) => (at ? tube : { ...tube, leastFill_pct: 85 }))
    expect(calls).toEqual([['keepCatalogue', catalogueJson({ ...catalogue, tubes })]])
  })

  it('answers bad input at its field, goes there, and loses nothing that was typed', async () => {
    const { calls } = show()
    const form = await open('Tests', firstTest?.name, 'Change this row')
    await write(form.getByLabelText('Name'), '')
    await write(form.getByLabelText('Least volume, mL of specimen'), 'much')
    await press('Put this row in')
    const name = form.getByLabelText<HTMLInputElement>('Name')
    expect(name.getAttribute('aria-invalid')).toBe('true')
    expect(document.activeElement).toBe(name)
    const least = form.getByLabelText<HTMLInputElement>('Least volume, mL of specimen')
    expect(least.value).toBe('much')
    expect(document.getElementById(`${least.id}-error`)?.textContent).toContain('much')
    expect(screen.getByRole('alert').textContent).toContain('Nothing was changed')
    expect(await axeFindings()).toEqual([])
    await write(name, 'Sodium')
    await write(least, '0.06')
    await press('Put this row in')
    expect(screen.getByText(`Changed: ${firstTest?.code} (least_mL)`)).toBeTruthy()
    expect(calls).toEqual([])
  })

  it('refuses to take out what something else needs, and says what', async () => {
    show({}, [{ tubeCode: firstTube?.code ?? '', lot: 'A-1', expires: '2028-01-31', count: 2 }])
    await open('Tubes', firstTube?.name, 'Change this row')
    await press('Take this row out')
    expect(screen.getByRole('alert').textContent).toContain('Lot A-1 of')
    await press('Leave the row as it was')
    expect(screen.queryByRole('form')).toBeNull()
    expect(document.activeElement?.textContent).toBe('Add a tube')
  })

  it('takes a row out that nothing needs, and leaves all changes at one press', async () => {
    show()
    await open('Tests', firstTest?.name, 'Change this row')
    await press('Take this row out')
    expect(screen.getByText(`Removed tests: ${firstTest?.code}`)).toBeTruthy()
    await press('Leave it as it is')
    expect(screen.queryByText(/^Removed tests/)).toBeNull()
  })

  it('adds a test like another', async () => {
    show()
    const form = await open('Tests', firstTest?.name, 'Add one like it')
    await press('Put this row in')
    expect(form.getByLabelText('Code').getAttribute('aria-invalid')).toBe('true')
    await write(form.getByLabelText('Code'), 'sodiumTwo')
    await write(form.getByLabelText('Name'), 'Sodium, second')
    await press('Put this row in')
    expect(screen.getByText('New tests: sodiumTwo')).toBeTruthy()
  })

  it('counts a lot by hand against the count of now', async () => {
    const lot = { tubeCode: firstTube?.code ?? '', lot: 'A-1', expires: '2028-01-31', count: 7 }
    const { calls, store } = show({}, [lot])
    await userEvent.click(screen.getByRole('button', { name: /^Change this row\s*A-1$/ }))
    const form = within(screen.getByRole('form'))
    // A draw closes meanwhile and takes one tube.
    store.setState({ stock: [{ ...lot, count: 6 }] })
    await write(form.getByLabelText('Lot'), 'A-2')
    await press('Count it like this')
    expect(calls).toEqual([['keepStock', [{ ...lot, lot: 'A-2', count: 6 }]]])
  })

  it('goes back to the shipped catalog after showing what that changes', async () => {
    const tests = catalogue.tests.slice(1)
    const { calls } = show({ catalogue: { ...catalogue, tests } })
    await press('Go back to the shipped catalog')
    expect(screen.getByText(`New tests: ${firstTest?.code}`)).toBeTruthy()
    expect(calls).toEqual([])
    await press('Accept these changes')
    expect(calls).toEqual([['forgetCatalogue']])
  })
})
