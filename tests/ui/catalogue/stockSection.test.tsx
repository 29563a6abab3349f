// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { expect, it } from 'vitest'
import { intakeFor } from '../../support/fakeServices.ts'
import { shippedSite } from '../../support/site.ts'
import { renderApp } from '../renderApp.tsx'

const catalogue = {
  ...shippedSite.catalogue,
  tests: shippedSite.catalogue.tests.slice(0, 2),
  tubes: shippedSite.catalogue.tubes.slice(0, 3),
}
const site = { ...shippedSite, catalogue }
const CODE = catalogue.tubes[0]?.code ?? ''

async function show(text: string) {
  const app = renderApp({ screen: { name: 'catalogue' } }, { site, intake: intakeFor(site) })
  const file = new File([text], 'stock.csv', { type: 'text/csv' })
  await userEvent.upload(screen.getByLabelText('Choose a stock file'), file)
  await screen.findByRole('status')
  return app
}

it('shows what a file holds and counts it only when that is accepted', async () => {
  const { calls } = await show(`tubeCode,lot,expires,count\n${CODE},A-1,2028-01-31,12\n`)
  expect(screen.getByText(/Nobody has counted the tubes here/)).toBeTruthy()
  const table = screen.getByRole('table', { name: 'stock.csv' })
  expect(within(table).getByText('A-1')).toBeTruthy()
  expect(calls).toEqual([])
  await userEvent.click(screen.getByRole('button', { name: 'Count these' }))
  expect(calls).toEqual([
    ['keepStock', [{ tubeCode: CODE, lot: 'A-1', expires: '2028-01-31', count: 12 }]],
  ])
})

it('names every fault and offers nothing to accept', async () => {
  await show(
    `tubeCode,lot,expires,count\nnope,A-1,2028-02-31,-1\n${CODE},,2028-01-31,1\n${CODE},B,2028-01-31,1\n${CODE},b,2028-01-31,1\n`,
  )
  const table = screen.getByRole('table', { name: /fault/i })
  expect(within(table).getByText(/is not in the catalog of tubes/)).toBeTruthy()
  expect(within(table).getByText(/The lot is empty/)).toBeTruthy()
  expect(within(table).getByText(/stands in row 3 already/)).toBeTruthy()
  expect(screen.queryByRole('button', { name: 'Count these' })).toBeNull()
})
