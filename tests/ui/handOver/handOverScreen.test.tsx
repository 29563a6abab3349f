// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import type { AppState } from '../../../src/app/appApi.ts'
import type { HandOverView } from '../../../src/app/view/handOverView.ts'
import { axeFindings } from '../axe.ts'
import { FULL_HAND_OVER } from '../../support/handOverView.ts'
import { renderApp } from '../renderApp.tsx'

async function shown(change: Partial<HandOverView> = {}, more: Partial<AppState> = {}) {
  const handOver = { ...FULL_HAND_OVER, ...change }
  const app = renderApp({ screen: { name: 'handOver' }, handOver, ...more })
  // The screen is loaded when it is asked for.
  await screen.findByRole('heading', { name: 'Record server' }, { timeout: 20_000 })
  return app
}

describe('the screen of the hand-over', () => {
  it('names no patient, tells what was refused in the words of the server, and passes axe', async () => {
    await shown()
    expect(screen.getByText(/Multiple matches/)).toBeTruthy()
    expect(screen.getByText('HTTP status 412.')).toBeTruthy()
    expect(document.body.textContent).not.toMatch(/Invented,|born/)
    expect(await axeFindings()).toEqual([])
  })

  it('says what keeps it back and when it is tried again', async () => {
    await shown({
      state: 'waiting',
      trouble: { kind: 'trouble', why: 'html', status: 200, issues: [] },
      next_ms: Date.parse('2026-11-25T14:03:00'),
    })
    const status = within(screen.getAllByRole('status')[0] as HTMLElement)
    expect(status.getByText(/A web page came/)).toBeTruthy()
    expect(status.getByText(/14:03/)).toBeTruthy()
  })

  it('asks who says that something is not to go, and is worked by keys alone', async () => {
    const user = userEvent.setup()
    const { calls } = await shown()
    const drop = screen.getByRole('button', { name: 'Do not hand over: Draw D7-20261125-0007' })
    drop.focus()
    await user.keyboard('{Enter}')
    const name = screen.getByLabelText(/Who says so/)
    await user.clear(name)
    const yes = screen.getByRole('button', { name: 'It is not to go' })
    expect(yes.hasAttribute('disabled')).toBe(true)
    await user.type(name, 'R. Ash')
    yes.focus()
    await user.keyboard('{Enter}')
    expect(calls).toContainEqual(['handOver.drop', 'draw/D7-20261125-0007', 'R. Ash'])
  })

  it('tries again, pauses, fetches orders', async () => {
    const user = userEvent.setup()
    const { calls } = await shown()
    await user.click(screen.getByRole('button', { name: 'Try again: Draw D7-20261125-0003' }))
    await user.click(screen.getByRole('button', { name: 'Pause' }))
    await user.click(screen.getByRole('button', { name: 'Fetch orders now' }))
    expect(calls).toEqual([
      ['handOver.again', 'draw/D7-20261125-0003'],
      ['handOver.pause', true],
      ['handOver.fetchNow'],
    ])
  })

  it('says how many draws are open yet, without practice', async () => {
    const draw = { drawId: 'D7-20261125-0009', opened_ms: 1, logVersion: 1, patientName: 'x' }
    const draws = [
      { ...draw, closed: false, invented: false },
      { ...draw, closed: false, invented: true },
      { ...draw, closed: true, invented: false },
    ]
    await shown({}, { draws })
    expect(screen.getByText('1 draw is not closed yet. It goes once it is.')).toBeTruthy()
  })

  it('does not look as if all were well where something was refused', async () => {
    await shown({ state: 'idle' })
    const status = screen.getAllByRole('status')[0] as HTMLElement
    expect(status.getAttribute('data-state')).toBe('refused')
    expect(status.textContent).toContain('1 handed over. 2 were refused: see below.')
  })

  it('claims no orders were fetched where fetching failed, and says what others have drawn', async () => {
    const orders = FULL_HAND_OVER.orders
    const trouble = { kind: 'trouble', why: 'unreachable', issues: [] } as const
    await shown({ orders: { ...orders, trouble } })
    expect(screen.getByText(/^Tried at \d\d:\d\d: the orders could not be fetched\.$/)).toBeTruthy()
    expect(screen.queryByText(/new orders? on the list/)).toBeNull()
    expect(screen.getByText(/^2 orders are not listed here, because other devices/)).toBeTruthy()
  })

  it('offers nothing where the site names no server', async () => {
    await shown({ state: 'none', server: undefined })
    expect(screen.queryByRole('button', { name: 'Switch on' })).toBeNull()
    expect(screen.getByText(/names no record server/)).toBeTruthy()
  })
})
