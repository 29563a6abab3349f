// @vitest-environment jsdom
import { act, cleanup, screen } from '@testing-library/react'
import { userEvent } from '@testing-library/user-event'
import { expect, it, vi } from 'vitest'
import type { AppState } from '../../../src/app/appApi.ts'
import type { MicCheck } from '../../../src/app/voice/micCheck.ts'
import type { MicCheckView } from '../../../src/app/voice/micCheckView.ts'
import { SAID } from '../../support/sampleVoice.ts'
import { renderApp } from '../renderApp.tsx'

function show(change: Partial<AppState> = {}) {
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
  const app = renderApp({ ...change, screen: { name: 'micCheck' } }, { micCheck: check })
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

it('finds the best wordings of whoever draws, and says that a round is kept', async () => {
  const { check, become } = show(SAID)
  await userEvent.click(screen.getByRole('button', { name: 'Find my best wordings' }))
  expect(check.start).toHaveBeenCalledWith('learn')
  become({
    phase: 'done',
    kind: 'learn',
    right: 12,
    asked: 12,
    verdict: { verdict: 'good', reasons: [] },
  })
  expect(screen.getByText(/A round is kept/)).toBeTruthy()
  expect(screen.queryByText(/a small sample/)).toBeNull()
})

it('keeps nothing, and says so, while nobody has said who draws', () => {
  const { become } = show()
  expect(screen.queryByRole('button', { name: 'Find my best wordings' })).toBeNull()
  become({
    phase: 'done',
    kind: 'check',
    right: 6,
    asked: 6,
    verdict: { verdict: 'good', reasons: [] },
  })
  expect(screen.getByText(/nothing of this was kept/)).toBeTruthy()
})
