// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import { userEvent } from '@testing-library/user-event'
import { expect, it, vi } from 'vitest'
import type { TrialNote } from '../../../src/app/voice/phraseTrial.ts'
import { renderApp } from '../renderApp.tsx'

const commands = [
  { key: 'needleIn', label: 'Needle in' },
  { key: 'bandOn', label: 'Band on' },
]

it('tries a wording for the chosen command and tells what stands against it', async () => {
  const notes: readonly TrialNote[] = [{ weight: 'error', text: '"x" sounds like "y".' }]
  const tryPhrase = vi.fn(() => Promise.resolve(notes))
  renderApp({ screen: { name: 'settings' } }, { phraseTrial: { commands, tryPhrase } })
  await userEvent.selectOptions(screen.getByLabelText('For'), 'bandOn')
  await userEvent.type(screen.getByLabelText('New wording'), 'strap on')
  await userEvent.click(screen.getByRole('button', { name: 'Check the wording' }))
  expect(tryPhrase).toHaveBeenCalledWith('bandOn', 'strap on')
  const fault = await screen.findByText(/Will not work:/)
  expect(fault.closest('[role="status"]')?.textContent).toContain('"x" sounds like "y".')
})

it('says that a good wording should work, and asks nothing for an empty one', async () => {
  const tryPhrase = vi.fn(() => Promise.resolve([]))
  renderApp({ screen: { name: 'settings' } }, { phraseTrial: { commands, tryPhrase } })
  await userEvent.click(screen.getByRole('button', { name: 'Check the wording' }))
  expect(tryPhrase).not.toHaveBeenCalled()
  await userEvent.type(screen.getByLabelText('New wording'), 'needle placed')
  await userEvent.keyboard('{Enter}')
  expect(await screen.findByText(/“needle placed” should work/)).toBeTruthy()
})
