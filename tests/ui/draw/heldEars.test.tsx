// @vitest-environment jsdom
import { fireEvent, screen } from '@testing-library/react'
import { describe, expect, it } from 'vitest'
import type { Settings } from '../../../src/app/site/settings.ts'
import type { DrawView } from '../../../src/app/view/drawViewTypes.ts'
import { shippedSite } from '../../support/site.ts'
import { FILLING, STATE } from '../../support/views.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const { held } = shippedSite.texts.screens.draw
const OPEN: DrawView = { ...FILLING, listening: { ...FILLING.listening, isHeld: true } }

function show(settings: Partial<Settings>, draw: DrawView = FILLING) {
  const app = renderApp({
    screen: { name: 'draw', drawId: draw.drawId },
    draw,
    settings: { ...STATE.settings, ...settings },
  })
  const moves = () => app.calls.flatMap(([name, move]) => (name === 'holdEars' ? [move] : []))
  return { app, moves }
}
const bar = () => screen.queryByRole('button', { name: new RegExp(`${held.hold}|${held.required}|${held.open}`) }) // prettier-ignore
const theBar = (): HTMLElement => {
  const found = bar()
  if (!found) throw new Error('There is no bar.')
  found.setPointerCapture = () => undefined
  return found
}

describe('the key that holds the ears open', () => {
  const key = (type: 'keyDown' | 'keyUp', more: object = {}, target: Element = document.body) =>
    fireEvent[type](target, { key: 'F13', code: 'F13', ...more })

  it('is held from its press to its coming up, repeats and all', () => {
    const { moves } = show({ heldKey: 'F13' })
    expect(key('keyDown')).toBe(false)
    key('keyDown', { repeat: true })
    key('keyUp')
    expect(moves()).toEqual(['press', 'release'])
  })

  it('is lost with the page', () => {
    const { moves } = show({ heldKey: 'F13' })
    key('keyDown')
    fireEvent.blur(window)
    Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true })
    fireEvent(document, new Event('visibilitychange'))
    Reflect.deleteProperty(document, 'visibilityState')
    fireEvent(document, new Event('visibilitychange'))
    expect(moves()).toEqual(['press', 'lose', 'lose'])
  })

  it('is no other key, nor one with another', () => {
    const { moves } = show({ heldKey: 'F13' })
    expect(key('keyDown', { key: 'F14', code: 'F14' })).toBe(true)
    key('keyDown', { ctrlKey: true })
    expect(moves()).toEqual([])
  })

  it('confirms nothing, and does nothing where none is set', () => {
    const { app } = show({ heldKey: '' })
    key('keyDown')
    key('keyDown', { key: '', code: '' })
    expect(app.calls.filter(([name]) => name !== 'holdEars')).toEqual([])
    expect(app.calls).toEqual([])
  })

  it('types in a place to type, and is let go of there too', () => {
    const { moves } = show({ heldKey: 'PageDown' })
    const field = document.body.appendChild(document.createElement('input'))
    const page = { key: 'PageDown', code: 'PageDown' }
    expect(key('keyDown', page, field)).toBe(true)
    expect(moves()).toEqual([])
    key('keyDown', page)
    key('keyUp', page, field)
    field.remove()
    expect(moves()).toEqual(['press', 'release'])
  })

  it('is not followed where another page writes the draw, or where voice is off', () => {
    const away = show({ heldKey: 'F13', heldBar: true }, { ...FILLING, listening: { state: { kind: 'off' }, level: 0 } }) // prettier-ignore
    key('keyDown')
    expect(away.moves()).toEqual([])
    expect(bar()).toBeNull()
  })
})

describe('the bar that holds the ears open', () => {
  it('stands there where it is wanted, or where nothing else could do it', () => {
    show({})
    expect(bar()).toBeNull()
  })
  it.each<[Partial<Settings>, boolean]>([
    [{ heldBar: true }, true],
    [{ heldRequired: true }, true],
    [{ heldRequired: true, heldKey: 'F13' }, false],
    [{ heldRequired: true, heldKey: 'F13', heldBar: true }, true],
  ])('with %o: %s', (settings, isThere) => {
    show(settings)
    expect(bar() !== null).toBe(isThere)
  })

  it('is held by a pointer, and lost with it', () => {
    const { moves } = show({ heldBar: true })
    const found = theBar()
    fireEvent.pointerDown(found, { button: 0, pointerId: 1 })
    fireEvent.pointerUp(found, { pointerId: 1 })
    fireEvent.click(found, { detail: 1 })
    fireEvent.pointerDown(found, { button: 0, pointerId: 1 })
    fireEvent.pointerCancel(found, { pointerId: 1 })
    expect(moves()).toEqual(['press', 'release', 'press', 'lose'])
  })

  it('is no menu under a long press, and no business of the other buttons of a mouse', () => {
    const { moves } = show({ heldBar: true })
    expect(fireEvent.contextMenu(theBar())).toBe(false)
    fireEvent.pointerDown(theBar(), { button: 2, pointerId: 1 })
    expect(moves()).toEqual([])
  })

  it('is tapped by whoever has no pointer', () => {
    const { moves } = show({ heldBar: true })
    theBar().focus()
    fireEvent.click(theBar(), { detail: 0 })
    expect(moves()).toEqual(['press', 'release'])
    expect(document.activeElement).toBe(document.body)
  })

  it('says in words and by its shape whether they are open', async () => {
    show({ heldBar: true }, OPEN)
    expect(theBar().getAttribute('aria-pressed')).toBe('true')
    expect(theBar().querySelector('circle.full')).toBeTruthy()
    expect(screen.getAllByText(held.open)).toHaveLength(2)
    expect(await axeFindings()).toEqual([])
  })

  it('is shut otherwise', async () => {
    show({ heldBar: true })
    expect(theBar().getAttribute('aria-pressed')).toBe('false')
    expect(theBar().querySelector('circle.empty')).toBeTruthy()
    expect(await axeFindings()).toEqual([])
  })
})

describe('the line on top', () => {
  it('says that the ears are open, also without a bar', () => {
    show({ heldKey: 'F13' }, OPEN)
    expect(
      screen.getByText(held.open).closest('.listening')?.querySelector('.earShape'),
    ).toBeTruthy()
  })
  it('says where nothing is heard without', () => {
    show({ heldKey: 'F13', heldRequired: true })
    expect(screen.getByText(held.onlyHeld)).toBeTruthy()
  })
})
