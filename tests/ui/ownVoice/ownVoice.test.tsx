// @vitest-environment jsdom
import { cleanup, screen, within } from '@testing-library/react'
import { userEvent } from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import type { AppState } from '../../../src/app/appApi.ts'
import { KNOWN_VOICE as known, SAID, SAMPLE_OFFER } from '../../support/sampleVoice.ts'
import { SCENES } from '../../support/scenes.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const show = (change: Partial<AppState>, name: 'micCheck' | 'settings' = 'micCheck') =>
  renderApp({ ...SAID, screen: { name }, ...change })
const text = () => document.body.textContent ?? ''

describe('what was learned of a voice', () => {
  it.each(['micCheck', 'settings'] as const)('is told in words on %s', (name) => {
    show({ ownVoice: known }, name)
    expect(text()).toContain('Your voice was about 36 dB above the room in the last 2 checks.')
    expect(text()).toContain('“band is off” is shown first, since you are heard better with it.')
    expect(text()).toContain('“filling done” is shown first, as you chose.')
    expect(text()).toContain('“tube complete” is often taken back, 8 of 14 times.')
    expect(text()).toMatch(/: no other wording is offered\./)
    expect(text()).toContain('One wording was said too rarely in checks to be ranked')
  })

  it('stands in a table, every number of it', async () => {
    show({ ownVoice: known })
    await userEvent.click(screen.getByText('Every wording that was counted'))
    const row = screen.getByRole('row', { name: /band released/ })
    expect(
      within(row)
        .getAllByRole('cell')
        .map((cell) => cell.textContent),
    ).toEqual([...['band released', '1 of 6', '0 of 4']])
    expect(screen.getByRole('row', { name: /identity confirmed/ }).textContent).toContain('not yet')
    expect(screen.getAllByRole('row')).toHaveLength(7)
  })

  it('is deleted by two presses, and kept by the other one', async () => {
    const app = show({ ownVoice: known })
    await userEvent.click(screen.getByRole('button', { name: 'Delete my numbers' }))
    expect(text()).toContain('Everything that is known of your voice here is deleted')
    await userEvent.click(screen.getByRole('button', { name: 'Keep' }))
    expect(app.calls).toEqual([])
    await userEvent.click(screen.getByRole('button', { name: 'Delete my numbers' }))
    await userEvent.click(screen.getByRole('button', { name: 'Delete' }))
    expect(app.calls).toEqual([['ownVoice.forgetMine']])
  })

  it('of others is counted and not shown, and deleted with everybody’s', async () => {
    const app = show({ ownVoice: { ...known, own: undefined } })
    expect(text()).toContain('Nothing is known of your voice here yet.')
    expect(text()).toContain('Numbers of 2 other people are kept here. They are not shown.')
    await userEvent.click(screen.getByRole('button', { name: 'Delete everybody’s numbers' }))
    await userEvent.click(screen.getByRole('button', { name: 'Delete' }))
    expect(app.calls).toEqual([['ownVoice.forgetAll']])
  })

  it('of somebody of an earlier shift is not shown either', () => {
    const old = { settings: { ...SAID.settings!, collectorSaid_ms: 1 } }
    show({ ...old, ownVoice: known })
    expect(text()).toContain('Nobody of this shift has said so.')
    expect(text()).not.toContain('band is off')
    expect(text()).toContain('Numbers of 3 other people')
    expect(screen.queryByRole('button', { name: 'Find my best wordings' })).toBeNull()
  })

  it('goes back to the usual order of a command', async () => {
    const app = show({ ownVoice: known })
    const [chosen, never] = screen.getAllByRole('button', { name: /Usual order again/ })
    await userEvent.click(chosen!)
    await userEvent.click(never!)
    expect(app.calls).toEqual([
      ['ownVoice.resetWording', 'tubeFull'],
      ['ownVoice.resetWording', 'needlestick'],
    ])
  })

  it('can be read by everybody', async () => {
    show({ ownVoice: known })
    expect(await axeFindings()).toEqual([])
  })
})

describe('the offer after a draw', () => {
  const closed = { ...SCENES.closed, ownVoice: { ...known, offer: SAMPLE_OFFER } }

  it.each([
    ['Show “filling done” first', 'change'],
    ['Not now', 'notNow'],
    ['Never for this command', 'never'],
  ] as const)('is answered by "%s"', async (name, answer) => {
    const app = renderApp(closed)
    expect(text()).toContain('you took “tube complete” back 8 of 14 times.')
    await userEvent.click(screen.getByRole('button', { name }))
    expect(app.calls).toContainEqual(['ownVoice.answerOffer', answer])
  })

  it('takes no key from the draw, and stands after the way on', () => {
    renderApp(closed)
    const buttons = screen.getAllByRole('button').map(({ textContent }) => textContent ?? '')
    const offered = buttons.findIndex((each) => each.startsWith('Show “filling done”'))
    expect(buttons.findIndex((each) => each.startsWith('Next patient'))).toBeLessThan(offered)
    const button = screen.getByRole('button', { name: 'Not now' })
    expect(button.getAttribute('aria-keyshortcuts')).toBeNull()
  })

  it('is not shown with another draw', () => {
    renderApp({ ...closed, ownVoice: { ...known, offer: { ...SAMPLE_OFFER, drawId: 'another' } } })
    expect(text()).not.toContain('A wording that fails often')
    cleanup()
  })
})
