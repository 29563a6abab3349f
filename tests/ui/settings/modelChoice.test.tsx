// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { expect, it } from 'vitest'
import { renderApp } from '../renderApp.tsx'

const show = () => renderApp({ screen: { name: 'settings' } })
const choose = (name: string) =>
  userEvent.selectOptions(screen.getByLabelText('Speech model'), name)

it('the model before can be chosen, and the app’s own again', async () => {
  const { calls } = show()
  await choose('before')
  await choose('shipped')
  expect(calls).toEqual([
    ['changeSettings', { speechModel: 'stillhand-en-0.1.tar.gz' }],
    ['changeSettings', { speechModel: '' }],
  ])
})

it('another model is kept once its name is a plain file name', async () => {
  const { calls } = show()
  await choose('own')
  const field = screen.getByLabelText('File of the model')
  await userEvent.type(field, '../')
  expect(field.getAttribute('aria-invalid')).toBe('true')
  await userEvent.clear(field)
  await userEvent.paste('vosk-small.zip')
  expect(calls.at(-1)).toEqual(['changeSettings', { speechModel: 'vosk-small.zip' }])
  expect(calls.flat().some((call) => JSON.stringify(call).includes('/'))).toBe(false)
})
