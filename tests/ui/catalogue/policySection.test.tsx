// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { expect, it } from 'vitest'
import { shippedSite } from '../../support/site.ts'
import { renderApp } from '../renderApp.tsx'

const { defaultPolicy: shipped } = shippedSite
const own = {
  ...shipped,
  limits: {
    ...shipped.limits,
    bandRest_s: { value: 180, source: 'invented', backing: 'site' as const },
  },
}
const few = { ...shippedSite.catalogue, tests: [], tubes: [] }

const show = () =>
  renderApp(
    { screen: { name: 'catalogue' } },
    { site: { ...shippedSite, policy: own, catalogue: few } },
  )
const file = (text: string) => new File([text], 'limits.json', { type: 'application/json' })
const choose = (text: string) =>
  userEvent.upload(screen.getByLabelText('Choose a file of limits (JSON)'), file(text))

it('shows every limit with its source, and what the site has changed', () => {
  show()
  expect(screen.getByRole('rowheader', { name: /bandLimit_s$/ })).toBeTruthy()
  expect(screen.getByText(/bandRest_s from 120 to 180/)).toBeTruthy()
})

it('takes limits over only after they were looked at', async () => {
  const { calls } = show()
  await choose('{"limits":{"drying_s":45}}')
  expect(calls).toEqual([])
  expect(await screen.findByText(/shipped 30, yours 45/)).toBeTruthy()
  await userEvent.click(screen.getByRole('button', { name: 'Use these limits' }))
  expect(calls.map(([name]) => name)).toEqual(['keepPolicy'])
  expect(String(calls[0]?.[1])).toContain('"value": 45')
})

it('names what is wrong and offers nothing to accept', async () => {
  show()
  await choose('{"limits":{"drying_s":-1}}')
  expect(await screen.findByText(/Nothing was changed/)).toBeTruthy()
  expect(screen.queryByRole('button', { name: 'Use these limits' })).toBeNull()
})
