// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { DRAFT } from '../support/views.ts'
import { axeFindings } from './axe.ts'
import { renderApp } from './renderApp.tsx'

const questions = ['Is it for this patient?', 'Is it to be drawn today?']
const open = questions.map((text) => ({ text, confirmed: false }))

describe('the questions of an order file', () => {
  it('stand on the form, each with a button of its own that says what it confirms', async () => {
    const app = renderApp({ screen: { name: 'order' }, draft: { ...DRAFT, questions: open } })
    await userEvent.click(screen.getByRole('button', { name: `Yes: ${questions[1] ?? ''}` }))
    expect(app.store.getState().draft.questions).toEqual([
      open[0],
      { text: questions[1], confirmed: true },
    ])
    expect(screen.getAllByRole('button', { name: /^Yes: / })).toHaveLength(1)
    expect(screen.getByText('Confirmed')).toBeTruthy()
    expect(await axeFindings()).toEqual([])
  })

  it('can be left with the order', async () => {
    const app = renderApp({ screen: { name: 'order' }, draft: { ...DRAFT, questions: open } })
    await userEvent.click(screen.getByRole('button', { name: 'Leave this order' }))
    expect(app.calls).toEqual([['newDraw']])
  })

  it('are not there when the file left none', () => {
    renderApp({ screen: { name: 'order' } })
    expect(screen.queryByRole('button', { name: 'Leave this order' })).toBeNull()
  })
})
