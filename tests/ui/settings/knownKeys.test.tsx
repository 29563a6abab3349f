// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { expect, it } from 'vitest'
import type { KeysView } from '../../../src/app/appApi.ts'
import { shippedSite } from '../../support/site.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const texts = shippedSite.texts.log.keys
const KEYS: KeysView = {
  own: { publicKey: '3059ab', keyId: '0123456789abcdef' },
  trusted: [
    { publicKey: '3059cd', keyId: 'fedcba9876543210', name: 'Tablet two', since: '2026-11-25' },
    { publicKey: '3059ef', keyId: '00112233aabbccdd', name: 'Bench', since: '2026-11-24' },
  ],
}
const show = (keys: KeysView = KEYS) => renderApp({ screen: { name: 'settings' }, keys })

it('shows the key of this device, short to compare and whole to copy', async () => {
  show()
  expect(screen.getByText('0123456789abcdef')).toBeTruthy()
  await userEvent.click(screen.getByText(texts.ownKey))
  expect(screen.getByText('3059ab')).toBeTruthy()
})

it('names each known key with its day, and says so when there is none', () => {
  show()
  expect(screen.getByText(/^Tablet two, key fedcba9876543210, since 25 Nov 2026$/)).toBeTruthy()
  expect(screen.queryByText(texts.none)).toBeNull()
})

it('says that no other key is known, also before its own is read', () => {
  show({ own: undefined, trusted: [] })
  expect(screen.getByText(texts.none)).toBeTruthy()
  expect(screen.queryByText(texts.ownKey)).toBeNull()
})

it('forgets the key that is asked for, and no other', async () => {
  const app = show()
  await userEvent.click(screen.getByRole('button', { name: 'Forget the key of Bench' }))
  expect(app.calls).toEqual([['forgetKey', '3059ef']])
})

it('takes a key with a name, and clears both', async () => {
  const app = show()
  await userEvent.type(screen.getByLabelText(texts.keyField), '3059ff')
  await userEvent.type(screen.getByLabelText(texts.nameField), 'Tablet three')
  await userEvent.click(screen.getByRole('button', { name: texts.add }))
  expect(app.calls).toEqual([['trustKey', '3059ff', 'Tablet three']])
  expect(screen.getByLabelText<HTMLInputElement>(texts.keyField).value).toBe('')
  expect(await axeFindings()).toEqual([])
})
