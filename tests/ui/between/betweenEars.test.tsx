// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { texts } from '../../../src/data/en/texts.ts'
import { FULL_BENCH } from '../../support/benchView.ts'
import { STATE } from '../../support/views.ts'
import { renderApp } from '../renderApp.tsx'

const { between } = texts.screens
const onBench = (change: Parameters<typeof renderApp>[0] = {}) =>
  renderApp({ screen: { name: 'bench' }, bench: FULL_BENCH, ...change })
const listening = { ...STATE.settings, listenBetween: true }

describe('the ears between patients', () => {
  it('are closed until somebody opens them', async () => {
    const app = onBench()
    const tick = screen.getByRole('checkbox', { name: between.listen })
    expect((tick as HTMLInputElement).checked).toBe(false)
    await userEvent.click(tick)
    expect(app.calls).toContainEqual(['changeSettings', { listenBetween: true }])
  })

  it('say what they hear, what they heard, and what may be said', () => {
    onBench({
      settings: listening,
      between: {
        listening: { state: { kind: 'listening' }, level: 0.5 },
        heard: { text: 'spin done', outcome: 'accepted', at_ms: 0 },
      },
    })
    expect(screen.getByText(texts.screens.draw.listening.listening)).toBeTruthy()
    expect(screen.getByText('spin done', { exact: false, selector: '.words' })).toBeTruthy()
    expect(screen.getByText(between.commands.spinEnded)).toBeTruthy()
  })

  it('are not offered where voice is off', () => {
    onBench({ settings: { ...listening, voiceOn: false } })
    expect(screen.queryByRole('checkbox', { name: between.listen })).toBeNull()
  })

  it('do not stand on the first screen of somebody who has no list and no bench', () => {
    renderApp()
    expect(screen.queryByRole('checkbox', { name: between.listen })).toBeNull()
  })
})
