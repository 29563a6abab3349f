// @vitest-environment jsdom
import { act, cleanup, screen } from '@testing-library/react'
import { userEvent } from '@testing-library/user-event'
import { expect, it, vi } from 'vitest'
import type { MicCheck } from '../../../src/app/voice/micCheck.ts'
import type { MicCheckView } from '../../../src/app/voice/micCheckView.ts'
import { renderApp } from '../renderApp.tsx'

function show() {
  let view: MicCheckView = { phase: 'ready' }
  let tell: () => void = () => undefined
  const check = {
    current: () => view,
    subscribe: (listener: () => void) => {
      tell = listener
      return () => undefined
    },
    start: vi.fn(() => Promise.resolve()),
    skip: vi.fn(),
    stop: vi.fn(),
  } satisfies MicCheck
  const app = renderApp({ screen: { name: 'micCheck' } }, { micCheck: check })
  const become = (next: MicCheckView): void =>
    act(() => {
      view = next
      tell()
    })
  return { check, become, app }
}

it('says that nothing is recorded, starts, shows each phrase and lets it be passed over', async () => {
  const { check, become } = show()
  expect(screen.getByText(/No sound is recorded, stored\s+or sent/)).toBeTruthy()
  await userEvent.click(screen.getByRole('button', { name: 'Start the check' }))
  expect(check.start).toHaveBeenCalledOnce()
  become({
    phase: 'asking',
    phrase: 'needle in',
    number: 3,
    of: 6,
    level: 0.4,
    transcript: 'needle out',
  })
  expect(screen.getByText('“needle in”')).toBeTruthy()
  expect(screen.getByText('Heard: needle out')).toBeTruthy()
  expect(screen.getByRole('meter', { name: 'Input level' }).getAttribute('aria-valuenow')).toBe(
    '40',
  )
  await userEvent.click(screen.getByRole('button', { name: 'Not heard, go on' }))
  expect(check.skip).toHaveBeenCalledOnce()
})

it('gives the verdict with its reasons', () => {
  const { become } = show()
  become({
    phase: 'done',
    kind: 'check',
    right: 5,
    asked: 6,
    verdict: { verdict: 'fair', reasons: ['The room is loud.'] },
  })
  expect(screen.getByText('This will do, with care.')).toBeTruthy()
  expect(screen.getByText('5 of 6 phrases were heard right.')).toBeTruthy()
  expect(screen.getByText('The room is loud.')).toBeTruthy()
})

it('stops listening when the screen is left', async () => {
  const { check, app } = show()
  await userEvent.click(screen.getByRole('button', { name: 'Back to the start' }))
  expect(app.calls).toEqual([['go', { name: 'home' }]])
  cleanup()
  expect(check.stop).toHaveBeenCalled()
})
