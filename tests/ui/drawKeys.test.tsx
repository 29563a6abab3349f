// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { BURST_ms, DIGIT_WAIT_ms } from '../../src/core/scan/keyReader.ts'
import type { PlainCommand } from '../../src/core/protocol/commands.ts'
import { ASK, choice, DECISION, FILLING, IDENTITY, LABELS, SEVERE } from '../support/views.ts'
import type { DrawView } from '../../src/app/view/drawViewTypes.ts'
import { HOLD_ms } from '../../src/ui/draw/useHold.ts'
import { renderApp } from './renderApp.tsx'

/** Lets the time go by in which presses wait. */
const letPass = (): void => act(() => void vi.advanceTimersByTime(HOLD_ms))

function openDraw(draw: DrawView) {
  const app = renderApp({ screen: { name: 'draw', drawId: draw.drawId }, draw })
  letPass()
  return app
}

/** Strikes a key at a time of the event clock, ms. */
function strike(
  key: string,
  at_ms = 0,
  more: KeyboardEventInit = {},
  target: Element = document.body,
) {
  const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...more })
  Object.defineProperty(event, 'timeStamp', { value: at_ms })
  fireEvent(target, event)
  return event
}

const settle = (): void => {
  act(() => void vi.advanceTimersByTime(DIGIT_WAIT_ms + 1))
}

describe('keys in a draw', () => {
  beforeEach(() => void vi.useFakeTimers())
  afterEach(() => void vi.useRealTimers())

  it.each([' ', 'Enter'])('take the main choice with %j', (key) => {
    const app = openDraw(FILLING)
    expect(strike(key).defaultPrevented).toBe(true)
    expect(app.calls).toEqual([['command', { type: 'tubeFull' }, 'keys']])
  })

  it('go back with Backspace', () => {
    const app = openDraw(FILLING)
    strike('Backspace')
    expect(app.calls).toEqual([['command', { type: 'goBack' }, 'keys']])
  })

  it('take the places with digits', () => {
    const app = openDraw(FILLING)
    strike('1')
    settle()
    letPass()
    strike('5', 900)
    settle()
    expect(app.calls).toEqual([
      ['command', { type: 'bandOff' }, 'keys'],
      ['command', { type: 'needleOut' }, 'keys'],
    ])
  })

  it('count a held key once', () => {
    const app = openDraw(FILLING)
    strike(' ')
    for (let i = 0; i < 5; i++) strike(' ', 0, { repeat: true })
    expect(app.calls).toHaveLength(1)
  })

  it('do nothing for a digit that no choice has', () => {
    const app = openDraw(LABELS)
    strike('7')
    settle()
    expect(app.calls).toEqual([])
  })

  it('leave shortcuts of the browser alone', () => {
    const app = openDraw(FILLING)
    strike(' ', 0, { ctrlKey: true })
    expect(app.calls).toEqual([])
  })

  it('leave the keys of a field to the field', () => {
    const app = openDraw(DECISION)
    const field = screen.getByLabelText('Who decided?')
    for (const key of [' ', 'Enter', 'Backspace', '1']) strike(key, 0, {}, field)
    settle()
    expect(app.calls).toEqual([])
  })

  it('answer only the question while one is open', () => {
    const app = openDraw(ASK)
    for (const [i, key] of ['2', '1', ' ', 'Backspace'].entries()) {
      strike(key, 1000 * i)
      settle()
      letPass()
    }
    expect(app.calls.map(([, command]) => command)).toEqual([{ type: 'confirmNo' }])
  })

  it('work on the severe screen too', () => {
    const app = openDraw(SEVERE)
    strike(' ')
    expect(app.calls).toEqual([['command', { type: 'needleOut' }, 'keys']])
  })
})

describe('a scanner that types', () => {
  beforeEach(() => void vi.useFakeTimers())
  afterEach(() => void vi.useRealTimers())

  it('gives one scan and no choices', () => {
    const app = openDraw(LABELS)
    ;[...'QX-0107-3'].forEach((character, i) => strike(character, 10 * i))
    strike('Enter', 90)
    settle()
    expect(app.calls).toEqual([['command', { type: 'scanLabel', text: 'QX-0107-3' }, 'scanner']])
  })

  it('is told from a person who strikes a digit and later Enter', () => {
    const app = openDraw(LABELS)
    strike('3')
    settle()
    letPass()
    strike('Enter', 900)
    expect(app.calls.map(([, command]) => command)).toEqual([
      { type: 'labelWrong' },
      { type: 'labelMatches' },
    ])
  })

  it('that breaks off moves nothing', () => {
    const app = openDraw(FILLING)
    ;[...'112233'].forEach((character, i) => strike(character, 10 * i))
    settle()
    expect(app.calls).toEqual([])
  })

  it.each([30, 70, 200, 300])('slowly, at %d ms a character, gives no choice', (gap_ms) => {
    const app = openDraw(FILLING)
    ;[...'A12', 'Enter'].forEach((key, i) => {
      strike(key, gap_ms * i)
      act(() => void vi.advanceTimersByTime(gap_ms))
    })
    act(() => void vi.advanceTimersByTime(BURST_ms))
    expect(app.calls).toEqual([])
    const question = screen.getByText('Was that a scan?').closest('[role=alert]')
    expect(question?.textContent).toContain('A12')
    fireEvent.click(screen.getByText('Yes, read it as a label'))
    expect(app.calls).toEqual([['command', { type: 'scanLabel', text: 'A12' }, 'scanner']])
    expect(screen.queryByText('Was that a scan?')).toBeNull()
  })

  it('is forgotten where the person says that it was none', () => {
    const app = openDraw(FILLING)
    ;[...'AB', 'Enter'].forEach((key, i) => strike(key, 100 * i))
    fireEvent.click(screen.getByText('No, forget it'))
    expect(screen.queryByText('Was that a scan?')).toBeNull()
    expect(app.calls).toEqual([])
  })

  it('presses no button that has the focus, on any screen', () => {
    const app = openDraw(FILLING)
    const button = screen.getByRole('button', { name: /say again/ })
    button.focus()
    ;[...'AB 1'].forEach((key, i) => strike(key, 100 * i, {}, button))
    expect(strike('Enter', 400, {}, button).defaultPrevented).toBe(true)
    expect(app.calls).toEqual([])
    cleanup()
    renderApp()
    const start = screen.getByRole('button', { name: /New draw/ })
    strike('A', 5000, {}, start)
    strike('1', 5200, {}, start)
    expect(strike('Enter', 5400, {}, start).defaultPrevented).toBe(true)
    expect(strike('Enter', 9000, {}, start).defaultPrevented).toBe(false)
  })

  it('into a field leaves its text there and sends no form', () => {
    openDraw(DECISION)
    const field = screen.getByLabelText('Who decided?')
    ;[...'D7261125000302'].forEach((key, i) => {
      expect(strike(key, 90 * i, {}, field).defaultPrevented).toBe(false)
      fireEvent.keyUp(field, { key })
    })
    expect(strike('Enter', 14 * 90, {}, field).defaultPrevented).toBe(true)
    ;[...'Dr. Example'].forEach((key, i) => strike(key, 9000 + 90 * i, {}, field))
    expect(strike('Enter', 9000 + 11 * 90, {}, field).defaultPrevented).toBe(false)
  })
})

describe('touch in a draw', () => {
  beforeEach(() => void vi.useFakeTimers({ shouldAdvanceTime: true }))
  afterEach(() => void vi.useRealTimers())
  const setup = () => userEvent.setup({ advanceTimers: vi.advanceTimersByTime })

  it('gives the same command as the key, and the next Space is the main choice again', async () => {
    const app = openDraw(FILLING)
    const user = setup()
    await user.click(screen.getByRole('button', { name: /say again/ }))
    letPass()
    await user.keyboard(' ')
    expect(app.calls).toEqual([
      ['command', { type: 'sayAgain' }, 'touch'],
      ['command', { type: 'tubeFull' }, 'keys'],
    ])
  })

  it('leaves Space to a button that was reached with Tab', async () => {
    const app = openDraw(FILLING)
    const user = setup()
    await user.tab()
    await user.tab()
    await user.keyboard(' ')
    expect(app.calls).toHaveLength(1)
    expect(app.calls[0]).toEqual(['command', { type: 'bandOff' }, 'keys'])
  })
})

describe('after each change presses wait', () => {
  beforeEach(() => void vi.useFakeTimers({ shouldAdvanceTime: true }))
  afterEach(() => void vi.useRealTimers())

  const CONSENT: DrawView = {
    ...FILLING,
    step: { ...FILLING.step, id: 'consent', title: 'Consent' },
    choices: [choice('confirmConsent', 'Patient agrees', 'consent given', { place: 'main', key: 'Space' })],
  } // prettier-ignore

  it('so that a double press never confirms two steps', () => {
    const app = openDraw(IDENTITY)
    strike(' ')
    fireEvent(document.body, new KeyboardEvent('keyup', { key: ' ', bubbles: true }))
    act(() => app.store.setState({ draw: CONSENT }))
    expect(document.querySelector('.draw')?.hasAttribute('data-held')).toBe(true)
    strike(' ', 200)
    fireEvent.click(screen.getByRole('button', { name: /consent given/ }))
    expect(app.calls.map(([, command]) => command)).toEqual([{ type: 'confirmPatient' }])
    letPass()
    fireEvent(document.body, new KeyboardEvent('keyup', { key: ' ', bubbles: true }))
    strike(' ', 2000)
    expect(app.calls.map(([, command]) => command)).toEqual([
      { type: 'confirmPatient' },
      { type: 'confirmConsent' },
    ])
  })

  it('also where the same step asks for the next tube', () => {
    const app = openDraw(FILLING)
    const main = screen.getByRole('button', { name: /tube complete/ })
    fireEvent.click(main)
    fireEvent.click(main)
    expect(app.calls).toHaveLength(1)
  })

  it('but what stops is taken at once, by touch and by its key', () => {
    const app = openDraw(IDENTITY)
    act(() => app.store.setState({ draw: CONSENT }))
    fireEvent.click(screen.getByRole('button', { name: /feeling faint/ }))
    strike('0')
    settle()
    expect(app.calls.map(([, command]) => command)).toEqual([
      { type: 'faint' },
      { type: 'stopEverything' },
    ])
  })

  it('and a press that began before is not taken by what stands there when it ends', () => {
    const app = openDraw(IDENTITY)
    const before = screen.getByRole('button', { name: /patient confirmed/ })
    act(() => app.store.setState({ draw: CONSENT }))
    letPass()
    // The finger went down on a button that is gone: nothing is there to come up on.
    expect(before.isConnected).toBe(false)
    fireEvent.click(before)
    expect(app.calls).toEqual([])
  })
})

describe('the arrow keys', () => {
  beforeEach(() => void vi.useFakeTimers({ shouldAdvanceTime: true }))
  afterEach(() => void vi.useRealTimers())

  it('go over the answers, round and back, and Space takes the one that is marked', async () => {
    const answer = (command: PlainCommand, phrase: string) =>
      choice(command, phrase, phrase, { place: 'answer' })
    const app = openDraw({
      ...FILLING,
      choices: [answer('latexNo', 'no rubber allergy'), answer('latexYes', 'allergic to rubber')],
    })
    const user = userEvent.setup({ advanceTimers: vi.advanceTimersByTime })
    await user.keyboard('{ArrowRight}{ArrowRight}{ArrowRight}{ArrowLeft}')
    expect(document.activeElement?.textContent).toContain('allergic to rubber')
    await user.keyboard(' ')
    expect(app.calls).toEqual([['command', { type: 'latexYes' }, 'keys']])
  })
})
