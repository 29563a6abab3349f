// @vitest-environment jsdom
import { cleanup, render, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { afterEach, describe, expect, it } from 'vitest'
import { previewCatalogue } from '../../../src/app/site/catalogue/previewCatalogue.ts'
import { tubesCsv } from '../../../src/app/site/catalogue/writeCatalogue.ts'
import { CatalogueScreen } from '../../../src/ui/catalogue/CatalogueScreen.tsx'
import { SITE } from '../../support/planning.ts'
import { axeFindings } from '../axe.ts'

// A few rows: axe takes seconds over the whole catalog in jsdom.
const catalogue = {
  ...SITE.catalogue,
  tests: SITE.catalogue.tests.slice(0, 5),
  tubes: SITE.catalogue.tubes.slice(0, 6),
}
const calls: unknown[][] = []
const note =
  (name: string) =>
  (...args: unknown[]) =>
    void calls.push([name, ...args])

function show(text?: string) {
  const preview =
    text === undefined ? undefined : previewCatalogue(catalogue, { name: 'tubes.csv', text })
  return render(
    <CatalogueScreen
      catalogue={catalogue}
      preview={preview}
      onPreview={note('preview')}
      onAccept={note('accept')}
      onDiscard={note('discard')}
      onExport={note('export')}
      onBack={note('back')}
    />,
  )
}

afterEach(() => {
  cleanup()
  calls.length = 0
})

describe('the catalog screen', { timeout: 30_000 }, () => {
  it('shows every test and tube with its source, and has no accessibility faults', async () => {
    show()
    const rows = (name: string) => within(screen.getByRole('table', { name })).getAllByRole('row')
    expect(rows('Tests')).toHaveLength(catalogue.tests.length + 1)
    expect(rows('Tubes')).toHaveLength(catalogue.tubes.length + 1)
    expect(rows('Tubes')[4]?.textContent).toContain('CLSI H21')
    expect(await axeFindings()).toEqual([])
  })

  it('hands over the chosen file as text and offers nothing to accept yet', async () => {
    show()
    const file = new File(['code\n'], 'site.csv', { type: 'text/csv' })
    await userEvent.upload(screen.getByLabelText('File to look at'), file)
    await expect.poll(() => calls).toEqual([['preview', { name: 'site.csv', text: 'code\n' }]])
    expect(screen.queryByRole('button', { name: 'Accept these changes' })).toBeNull()
  })

  it('names faults by row and column and does not let them through', async () => {
    show(tubesCsv(catalogue.tubes).replace(',citrate,', ',honey,'))
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
    show(tubesCsv([{ ...first!, nominal_mL: 9 }, ...rest]))
    expect(screen.getByRole('list', { name: 'Changes to tubes' }).textContent).toBe(
      `Changed: ${first!.code} (nominal_mL)`,
    )
    await userEvent.click(screen.getByRole('button', { name: 'Accept these changes' }))
    await userEvent.click(screen.getByRole('button', { name: 'Leave it as it is' }))
    expect(calls.map(([name]) => name)).toEqual(['accept', 'discard'])
  })

  it('exports tests, tubes or both, and goes back', async () => {
    show()
    for (const name of ['Save tests as CSV', 'Save tubes as CSV', 'Save both as JSON', 'Back']) {
      await userEvent.click(screen.getByRole('button', { name }))
    }
    expect(calls.map(([name, what]) => [name, typeof what === 'string' ? what : ''])).toEqual([
      ['export', 'testsCsv'],
      ['export', 'tubesCsv'],
      ['export', 'json'],
      ['back', ''],
    ])
  })
})
