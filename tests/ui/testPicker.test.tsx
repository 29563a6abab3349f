// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { DRAFT } from '../support/views.ts'
import { renderApp } from './renderApp.tsx'

const open = (tests: readonly string[] = []) => {
  const app = renderApp({ screen: { name: 'order' }, draft: { ...DRAFT, tests } })
  const combo = screen.getByRole('combobox', { name: 'Tests ordered' })
  return { app, combo, user: userEvent.setup() }
}
const tests = (app: ReturnType<typeof open>['app']) => app.store.getState().draft.tests
const activeText = (combo: HTMLElement) =>
  document.getElementById(combo.getAttribute('aria-activedescendant') ?? '')?.textContent

describe('picking tests', () => {
  it('finds by alias and adds with Enter without sending the form', async () => {
    const { app, combo, user } = open()
    await user.type(combo, 'blood sugar{Enter}')
    expect(tests(app)).toEqual(['GLU'])
    expect((combo as HTMLInputElement).value).toBe('')
    expect(app.calls.map(([name]) => name)).not.toContain('makePlan')
  })

  it('moves with the arrows, around the ends, and says where it is', async () => {
    const { app, combo, user } = open()
    await user.type(combo, 'c')
    expect(activeText(combo)).toContain('Complete blood count')
    await user.keyboard('{ArrowUp}')
    expect(activeText(combo)).toContain('Blood culture')
    await user.keyboard('{ArrowDown}{ArrowDown}')
    expect(activeText(combo)).toContain('Creatinine')
    await user.keyboard('{Enter}')
    expect(tests(app)).toEqual(['CREA'])
  })

  it('closes with Escape and opens with the arrow', async () => {
    const { combo, user } = open()
    await user.type(combo, 'g')
    expect(combo.ariaExpanded ?? combo.getAttribute('aria-expanded')).toBe('true')
    await user.keyboard('{Escape}')
    expect(combo.getAttribute('aria-expanded')).toBe('false')
    await user.keyboard('{ArrowDown}')
    expect(combo.getAttribute('aria-expanded')).toBe('true')
  })

  it('says of a test that it is on the order, and adds neither it nor the next that fits', async () => {
    const { app, combo, user } = open(['GLU'])
    await user.type(combo, 'glu')
    expect(screen.getByRole('option', { name: /Glucose.*On this order/ })).toBeTruthy()
    await user.keyboard('{Enter}')
    expect(tests(app)).toEqual(['GLU'])
    expect(screen.getByRole('status').textContent).toBe('Glucose is on this order already')
    await user.clear(combo)
    expect(screen.queryByRole('option', { name: /Glucose/ })).toBeNull()
  })

  it.each([
    ['nothing typed', ''],
    ['letters within a word', 'rombin'],
  ])('adds nothing with Enter for %s before one is chosen', async (_what, typed) => {
    const { app, combo, user } = open()
    await user.click(combo)
    if (typed) await user.keyboard(typed)
    expect(screen.getAllByRole('option').length).toBeGreaterThan(0)
    await user.keyboard('{Enter}')
    expect(tests(app)).toEqual([])
    await user.keyboard('{ArrowDown}{Enter}')
    expect(tests(app)).toHaveLength(1)
  })

  it('asks which, where one short name stands for several tests', async () => {
    const { app, combo, user } = open()
    await user.type(combo, 'thyroid panel{Enter}')
    expect(tests(app)).toEqual([])
    expect(screen.getByText(/Could be any of these/)).toBeTruthy()
  })

  it('adds with a press', async () => {
    const { app, combo, user } = open()
    await user.type(combo, 'crea')
    await user.click(screen.getByRole('option', { name: /Creatinine/ }))
    expect(tests(app)).toEqual(['CREA'])
    expect(document.activeElement).toBe(combo)
  })

  it('takes back the last with Backspace and any by its button', async () => {
    const { app, combo, user } = open(['CBC', 'GLU', 'PT'])
    await user.click(combo)
    await user.keyboard('{Backspace}')
    expect(tests(app)).toEqual(['CBC', 'GLU'])
    const list = screen.getByRole('list', { name: 'Tests on this order' })
    await user.click(within(list).getByRole('button', { name: 'Remove Complete blood count' }))
    expect(tests(app)).toEqual(['GLU'])
  })
})
