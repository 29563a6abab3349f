// @vitest-environment jsdom
import { act, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { SCENES } from '../support/scenes.ts'
import { renderApp } from './renderApp.tsx'

describe('the order form', () => {
  it('shows each error beside its field and in the summary, which leads there', async () => {
    const app = renderApp({ screen: { name: 'order' } })
    act(() => app.store.setState(SCENES.orderErrors ?? {}))
    const name = screen.getByLabelText('Family name')
    expect(name.getAttribute('aria-invalid')).toBe('true')
    const told = document.getElementById(name.getAttribute('aria-describedby') ?? '')
    expect(told?.textContent).toBe('Give the patient’s family name.')
    const summary = screen.getByRole('alert')
    expect(document.activeElement).toBe(summary)
    await userEvent.click(within(summary).getByRole('link', { name: /family name/ }))
    expect(document.activeElement).toBe(name)
  })

  it('asks for the plan', async () => {
    const app = renderApp({ screen: { name: 'order' } })
    await userEvent.click(screen.getByRole('button', { name: 'Plan the tubes' }))
    expect(app.calls).toEqual([['makePlan']])
  })

  it('takes a gauge by the number printed on the packet and never asks for a color', async () => {
    const app = renderApp({ screen: { name: 'order' } })
    await userEvent.selectOptions(screen.getByLabelText('Gauge printed on the packet'), '23 G')
    expect(app.store.getState().draft.needleSet.gauge).toBe(23)
    expect(screen.queryByLabelText(/color/i)).toBeNull()
  })

  it('hands an order file to the app', async () => {
    const app = renderApp({ screen: { name: 'order' } })
    const file = new File(['{"tests":[]}'], 'order.json', { type: 'application/json' })
    await userEvent.upload(screen.getByLabelText('Fill in from an order file'), file)
    expect(app.calls).toEqual([['importOrder', file]])
  })

  it('says that the demo is invented', () => {
    renderApp({ screen: { name: 'order' } })
    expect(screen.getByText(/made up for the demo/)).toBeTruthy()
  })
})
