// @vitest-environment jsdom
import { fireEvent, screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { expect, it } from 'vitest'
import { shippedSite } from '../../support/site.ts'
import { STATE } from '../../support/views.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const { held } = shippedSite.texts.device
const show = (heldKey = '') =>
  renderApp({ screen: { name: 'settings' }, settings: { ...STATE.settings, heldKey } })
const press = (key: string, code = key) =>
  fireEvent.keyDown(screen.getByLabelText(held.key.label), { key, code })
const changes = (app: ReturnType<typeof show>) =>
  app.calls.flatMap(([name, change]) => (name === 'changeSettings' ? [change] : []))

it('takes the key that is pressed, not one that is spelled', () => {
  const app = show()
  expect(press('F13')).toBe(false)
  expect(changes(app)).toEqual([{ heldKey: 'F13' }])
})

it('refuses a key that means something else, and says so', async () => {
  const app = show()
  press('b', 'KeyB')
  expect(changes(app)).toEqual([])
  expect(screen.getByText(held.key.error)).toBeTruthy()
  expect(await axeFindings()).toEqual([])
})

it('takes none with Backspace, and lets Tab go on', () => {
  const app = show('F13')
  expect(press('Tab')).toBe(true)
  press('Backspace')
  expect(changes(app)).toEqual([{ heldKey: '' }])
})

it('ticks the bar, and that it is required', async () => {
  const app = show()
  await userEvent.click(screen.getByLabelText(held.bar))
  await userEvent.click(screen.getByLabelText(held.required))
  expect(changes(app)).toEqual([{ heldBar: true }, { heldRequired: true }])
})
