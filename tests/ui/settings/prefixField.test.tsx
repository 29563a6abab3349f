// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { expect, it } from 'vitest'
import { renderApp } from '../renderApp.tsx'

it('the device prefix is kept only once a bar code can hold it, and in capitals', async () => {
  const app = renderApp({ screen: { name: 'settings' } })
  const field = screen.getByLabelText('Letters of this device')
  await userEvent.clear(field)
  await userEvent.type(field, 'ä')
  expect(field.getAttribute('aria-invalid')).toBe('true')
  expect(screen.getByText(/Two to four letters or digits/)).toBeTruthy()
  expect(app.calls).toEqual([])
  await userEvent.clear(field)
  await userEvent.type(field, 'qk2')
  expect(app.calls).toEqual([
    ['changeSettings', { devicePrefix: 'QK' }],
    ['changeSettings', { devicePrefix: 'QK2' }],
  ])
})
