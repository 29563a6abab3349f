// @vitest-environment jsdom
import { fireEvent, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { SCENES } from '../../support/scenes.ts'
import { STATE } from '../../support/views.ts'
import { renderApp } from '../renderApp.tsx'

/** The draw itself has a line of its own on top; a broken one shows the common head. */
const isDraw = (scene: string): boolean =>
  SCENES[scene]?.screen?.name === 'draw' && scene !== 'broken'
const OUTSIDE = [...Object.keys(SCENES).filter((scene) => !isDraw(scene))]
const FROM: Readonly<Record<string, string>> = {
  order: 'start',
  plan: 'order',
  chart: 'start',
  settings: 'start',
  practice: 'start',
  catalogue: 'start',
  micCheck: 'start',
}

const head = (): HTMLElement => {
  const found = [...document.querySelectorAll<HTMLElement>('[data-part="screenHeader"]')]
  expect(found).toHaveLength(1)
  return found[0]!
}
const back = (): HTMLElement => screen.getByRole('button', { name: /^Back to the \w/ })

describe('the head of a screen', () => {
  it.each(OUTSIDE)('of %s is the mark, then its name, then at most the way back', (scene) => {
    renderApp(SCENES[scene])
    const parts = [...head().children].map(({ tagName }) => tagName.toLowerCase())
    expect(parts.slice(0, 2)).toEqual(['svg', 'h1'])
    expect(parts.slice(2)).toEqual(parts.length > 2 ? ['button'] : [])
    expect(document.body.querySelector('h1')?.closest('[data-part]')).toBe(head())
  })

  it.each(Object.entries(FROM))('of %s says Back and its key, and where it leads', (name, to) => {
    const scene = SCENES[name]
    const { calls } = renderApp(scene)
    const seen = [...back().querySelectorAll('[aria-hidden="true"]')]
    expect(seen.map(({ textContent }) => textContent)).toEqual(['Back', 'Esc'])
    expect(within(head()).getAllByRole('button')).toEqual([back()])
    expect(back().getAttribute('aria-keyshortcuts')).toBe('Escape')
    fireEvent.keyDown(document.body, { key: 'Escape' })
    // What a screen reads by itself was not asked for.
    const asked = () => calls.filter(([name]) => name !== 'figures.read')
    expect(asked()).toEqual([['go', { name: to === 'start' ? 'home' : to }]])
    back().click()
    expect(asked()[1]).toEqual(asked()[0])
  })

  it.each([
    ['the lock', { lock: { ...STATE.lock, state: 'locked' } }],
    ['a recovery key', { lock: { ...STATE.lock, recoveryKey: 'AAAA-BBBB' } }],
    ['the first screen', {}],
  ] as const)('has no way back from %s, neither by button nor by key', (_what, state) => {
    const { calls } = renderApp(state)
    expect(head().querySelector('button')).toBeNull()
    fireEvent.keyDown(document.body, { key: 'Escape' })
    expect(calls).toEqual([])
  })
})

describe('Escape', () => {
  it('in a field only leaves the field, and then goes back', async () => {
    const { calls } = renderApp({ screen: { name: 'order' } })
    screen.getByLabelText('Record number').focus()
    await userEvent.keyboard('{Escape}')
    expect(document.activeElement).toBe(document.body)
    expect(calls).toEqual([])
    await userEvent.keyboard('{Escape}')
    expect(calls).toEqual([['go', { name: 'home' }]])
  })

  it('on a box that was ticked goes back at once', async () => {
    const { calls } = renderApp({ screen: { name: 'settings' } })
    screen.getAllByRole('checkbox')[0]!.focus()
    await userEvent.keyboard('{Escape}')
    expect(calls).toEqual([['go', { name: 'home' }]])
  })

  it('that closes the list of tests leaves the order where it is', async () => {
    const { calls } = renderApp({ screen: { name: 'order' } })
    await userEvent.type(screen.getByRole('combobox', { name: 'Tests ordered' }), 'sod')
    const asked = calls.length
    await userEvent.keyboard('{Escape}')
    expect(calls).toHaveLength(asked)
  })

  it('that is held goes back once, and with Ctrl or Alt not at all', () => {
    const { calls } = renderApp({ screen: { name: 'settings' } })
    fireEvent.keyDown(document.body, { key: 'Escape', repeat: true })
    fireEvent.keyDown(document.body, { key: 'Escape', ctrlKey: true })
    fireEvent.keyDown(document.body, { key: 'Escape', altKey: true })
    expect(calls).toEqual([])
  })
})
