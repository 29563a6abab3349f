// @vitest-environment jsdom
import { act, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import type { DrawView } from '../../src/app/view/drawViewTypes.ts'
import { sampleLog } from '../support/sampleLog.ts'
import { CLOSED, FILLING, SEVERE } from '../support/views.ts'
import { axeFindings } from './axe.ts'
import { renderApp } from './renderApp.tsx'

/** A view as no code would make it: drawing it throws. */
const poisoned = (view: DrawView): DrawView => ({ ...view, rack: undefined as never })
const onDraw = (draw: DrawView) =>
  renderApp({ screen: { name: 'draw', drawId: draw.drawId }, draw })

beforeEach(() => {
  // React tells developers of what it caught; here it is meant to be thrown.
  vi.spyOn(console, 'error').mockImplementation(() => undefined)
})

describe('a screen that throws', () => {
  it('leaves the running clocks on the draw, whose it is, and a way back', async () => {
    const app = onDraw(poisoned(FILLING))
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe(
      'This screen cannot be shown',
    )
    const clocks = within(screen.getByRole('list', { name: 'Running clocks' }))
    expect(clocks.getAllByRole('listitem').map(({ textContent }) => textContent)).toEqual([
      'Band (tourniquet) on for 0:38 22 s left',
      'Tube 2 filling 0:06 full in 8 to 13 s',
    ])
    expect(document.body.textContent).toContain(FILLING.patientLine)
    act(() => app.store.setState({ draw: { ...poisoned(FILLING), mainClock: { ...FILLING.mainClock!, text: '0:39' } } })) // prettier-ignore
    expect(clocks.getAllByRole('listitem')[0]?.textContent).toContain('0:39')
    await userEvent.click(screen.getByRole('button', { name: 'Back to the start' }))
    expect(app.calls).toEqual([['go', { name: 'home' }]])
  })

  it('still tells a severe exception', () => {
    // Its clocks cannot be drawn either.
    onDraw(poisoned({ ...SEVERE, otherClocks: undefined as never }))
    expect(screen.getByRole('alert').textContent).toContain('Take the needle out now.')
    expect(screen.queryByRole('list', { name: 'Running clocks' })).toBeNull()
    expect(screen.getByRole('button', { name: 'Back to the start' })).toBeTruthy()
  })

  it('is shown again once it can be', async () => {
    const app = onDraw(poisoned(FILLING))
    act(() => app.store.setState({ draw: FILLING }))
    await userEvent.click(screen.getByRole('button', { name: 'Show it again' }))
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe(FILLING.step.instruction)
  })

  it('is left behind with the next screen, and shows no clocks of a closed draw', () => {
    const log = sampleLog({ without: ({ type }) => type === 'drawOpened' })
    const app = renderApp({
      screen: { name: 'labels', drawId: log.drawId, from: 'chart' },
      records: new Map([[log.drawId, log]]),
      draw: CLOSED,
    })
    expect(screen.getByRole('heading', { name: 'This screen cannot be shown' })).toBeTruthy()
    expect(screen.queryByRole('list', { name: 'Running clocks' })).toBeNull()
    expect(screen.queryByRole('button', { name: 'Back to the draw' })).toBeNull()
    act(() => app.store.setState({ screen: { name: 'home' } }))
    expect(screen.getByRole('heading', { name: 'Both hands on the draw.' })).toBeTruthy()
  })

  it('leads back to the draw that runs behind it', async () => {
    const app = renderApp({
      screen: { name: 'plan' },
      plan: { tubes: undefined } as never,
      draw: FILLING,
    })
    await userEvent.click(screen.getByRole('button', { name: 'Back to the draw' }))
    expect(app.calls).toEqual([['go', { name: 'draw', drawId: FILLING.drawId }]])
  })

  it('has nothing that axe objects to', async () => {
    onDraw(poisoned(FILLING))
    expect(await axeFindings()).toEqual([])
  })
})
