// @vitest-environment jsdom
import { act, fireEvent, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import {
  choice,
  CLOSED,
  DECISION,
  FILLING,
  IDENTITY,
  LABELS,
  OVER,
  SEVERE,
} from '../support/views.ts'
import type { DrawView } from '../../src/app/view/drawViewTypes.ts'
import { HOLD_ms } from '../../src/ui/draw/useHold.ts'
import { renderApp } from './renderApp.tsx'

beforeEach(() => void vi.useFakeTimers({ shouldAdvanceTime: true }))
afterEach(() => void vi.useRealTimers())

/** Lets the time go by in which presses wait. */
const letPass = (): void => act(() => void vi.advanceTimersByTime(HOLD_ms))

function openDraw(draw: DrawView) {
  const app = renderApp({ screen: { name: 'draw', drawId: draw.drawId }, draw })
  letPass()
  return app
}

describe('a step', () => {
  it('shows its instruction, the clock in figures and words, and what was heard', () => {
    openDraw(FILLING)
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe(FILLING.step.instruction)
    const clock = screen.getByRole('region', { name: 'Band (tourniquet) on for' })
    expect(within(clock).getByRole('timer').textContent).toBe('0:38')
    expect(clock.textContent).toContain('22 s left')
    expect(screen.getByText('Heard:').parentElement?.textContent).toBe('Heard: ✓ next one on')
  })

  it('shows the words to say and the key on each choice', () => {
    openDraw(FILLING)
    const main = screen.getByRole('button', { name: /tube complete/ })
    expect(main.textContent).toContain('“tube complete”')
    expect(main.textContent).toContain('key Space')
  })

  it('names the state of every tube in words', () => {
    openDraw(FILLING)
    const rack = screen.getByRole('list', { name: 'Tubes in order of draw' })
    const states = within(rack).getAllByRole('listitem')
    // Where two tubes are alike their number, tests and handling tell them apart; the cap's color stands in words too.
    expect(states.map((item) => item.textContent)).toEqual([
      '1 BCULblueMixed',
      '2 Discard tubewhiteDiscarded',
      'tube 3 of 5 PTCitrate tube, 2.7 mL · light blueFilling now · level by the clock',
      '4 GLU, CREA, TSHgoldNext',
      '5 CBC, A1Clavender on ice at onceWaiting',
    ])
  })

  it('always has the safety commands, what stops first', () => {
    openDraw(LABELS)
    const row = screen.getByRole('navigation', { name: 'Always open' })
    const names = within(row).getAllByRole('button')
    expect(names).toHaveLength(LABELS.always.length)
    expect(names[0]?.textContent).toContain('stop everything')
  })

  it('says in words that it cannot hear and what to do', () => {
    openDraw(OVER)
    expect(screen.getByText(/Cannot hear/).closest('p')?.textContent).toBe(
      'Cannot hear. The room is too loud. Use touch or keys.',
    )
  })

  it('tells what was heard but refused', () => {
    openDraw(IDENTITY)
    expect(screen.getByText('Heard, but not now:').parentElement?.textContent).toContain(
      'skin clean',
    )
  })

  it('shows the identifiers to compare', () => {
    openDraw(IDENTITY)
    expect(screen.getByText('11 Feb 1984')).toBeTruthy()
  })

  it('says which label is to be read now', () => {
    openDraw(LABELS)
    const list = screen.getByRole('list', { name: 'Labels to read back' })
    const current = within(list)
      .getAllByRole('listitem')
      .filter((li) => li.ariaCurrent === 'step')
    expect(current.map((li) => li.textContent)).toEqual(['3. Citrate tube Read this one now'])
    expect(screen.getByText('QX-0107-3')).toBeTruthy()
  })
})

describe('where patients listen', () => {
  it('the code that is spoken stands beside the words, on an alarm as on a step', () => {
    openDraw({ ...SEVERE, coded: 'Lie back. Code four.' })
    expect(screen.getByRole('alert').textContent).toContain('Spoken: Lie back. Code four.')
    openDraw({ ...FILLING, coded: 'Stop. Code one.' })
    expect(screen.getByText(/^Spoken: Stop\. Code one\./)).toBeDefined()
  })
})

describe('a severe exception', () => {
  it('puts one instruction in place of the step and the rack', () => {
    openDraw(SEVERE)
    const alert = screen.getByRole('alert')
    expect(alert.textContent).toContain('Take the band off. Take the needle out now.')
    expect(screen.queryByText(SEVERE.step.instruction)).toBeNull()
    expect(screen.queryByRole('list', { name: 'Tubes in order of draw' })).toBeNull()
  })

  it('keeps the clock, its choices and the safety commands', () => {
    openDraw(SEVERE)
    expect(screen.getByRole('timer').textContent).toBe('0:38')
    expect(screen.getByRole('button', { name: /needle out/ })).toBeTruthy()
    expect(screen.getByRole('navigation', { name: 'Always open' })).toBeTruthy()
  })

  it('moves the reading place to it', () => {
    const app = openDraw(FILLING)
    act(() => app.store.setState({ draw: SEVERE }))
    expect(document.activeElement?.textContent).toBe(SEVERE.severe?.instruction)
  })
})

describe('what else happened', () => {
  const openSheet = async (draw: DrawView) => {
    const app = openDraw(draw)
    const user = userEvent.setup({ advanceTimers: vi.advanceTimersByTime })
    await user.click(screen.getByRole('button', { name: /What else happened/ }))
    letPass()
    return { app, user, sheet: screen.getByRole('dialog', { name: 'What else happened?' }) }
  }

  it('records a fact out of order and closes', async () => {
    const { app, user, sheet } = await openSheet(FILLING)
    await user.click(within(sheet).getByRole('button', { name: /Band went on/ }))
    expect(app.calls).toEqual([['command', { type: 'bandOn' }, 'touch']])
    expect(screen.queryByRole('dialog')).toBeNull()
  })

  it('takes no main choice with Space while it is open, and closes with Escape', async () => {
    const { app, user } = await openSheet(FILLING)
    await user.keyboard(' {Escape}')
    expect(app.calls).toEqual([])
    expect(screen.queryByRole('dialog')).toBeNull()
  })

  it('records a tube that went on out of turn', async () => {
    const { app, user, sheet } = await openSheet(FILLING)
    await user.click(within(sheet).getByRole('button', { name: /^EDTA tube/ }))
    expect(app.calls[0]?.[1]).toEqual({ type: 'tubeOnNamed', tubeId: 't5' })
  })

  it('takes a short volume with a comma and refuses one that cannot be', async () => {
    const { app, user, sheet } = await openSheet(FILLING)
    const field = within(sheet).getByLabelText('Short tube: how much is in it, mL')
    const send = within(sheet).getByRole('button', { name: 'Record the short tube' })
    await user.type(field, '250')
    await user.click(send)
    expect(app.calls).toEqual([])
    expect(within(sheet).getByText('give a volume from 0 to 20 mL.')).toBeTruthy()
    await user.clear(field)
    await user.type(field, '1,5')
    await user.click(send)
    expect(app.calls[0]?.[1]).toEqual({ type: 'tubeShortBy', estimate_mL: 1.5 })
  })

  it('hands over to a named colleague only', async () => {
    const { app, user, sheet } = await openSheet(FILLING)
    const send = within(sheet).getByRole('button', { name: 'Hand over' })
    await user.click(send)
    expect(app.calls).toEqual([])
    await user.type(within(sheet).getByLabelText('Hand over to'), 'Noor Lind')
    await user.type(within(sheet).getByLabelText('Their initials'), 'NL')
    await user.click(send)
    const to = { id: 'noor-lind-nl', name: 'Noor Lind', initials: 'NL' }
    expect(app.calls[0]?.[1]).toEqual({ type: 'handOver', to })
  })
})

describe('a step with many choices', () => {
  const many: DrawView = {
    ...FILLING,
    choices: [...FILLING.choices, choice('nausea', 'Nausea', 'feeling sick')],
  }

  it('keeps those without a place for the sheet', async () => {
    openDraw(many)
    expect(screen.queryByRole('button', { name: /Nausea/ })).toBeNull()
    await userEvent.click(screen.getByRole('button', { name: /What else happened/ }))
    letPass()
    expect(within(screen.getByRole('dialog')).getByRole('button', { name: /Nausea/ })).toBeTruthy()
  })

  it('reads labels back only at their step', () => {
    openDraw({ ...FILLING, labels: LABELS.labels })
    expect(screen.queryByRole('list', { name: 'Labels to read back' })).toBeNull()
  })
})

describe('a tube found without a label', () => {
  const found: DrawView = { ...LABELS, step: { ...LABELS.step, id: 'unlabelled' } }

  it('is named with what was decided and by whom, and nothing is chosen beforehand', async () => {
    const app = openDraw(found)
    const send = screen.getByRole('button', { name: 'Record what was decided' })
    await userEvent.click(send)
    expect(app.calls).toEqual([])
    expect(screen.getByText(/choose the tube and what was decided/)).toBeTruthy()
    const { tubeId = '' } = found.labels[1] ?? {}
    await userEvent.selectOptions(screen.getByLabelText('Which tube has no label?'), tubeId)
    await userEvent.selectOptions(screen.getByLabelText('What was decided?'), 'discarded')
    await userEvent.type(screen.getByLabelText('Who labels it, or who decided?'), ' Noor Lind ')
    await userEvent.click(send)
    expect(app.calls[0]?.[1]).toEqual({
      type: 'settleUnlabelled',
      tubeId,
      how: 'discarded',
      by: 'Noor Lind',
    })
  })
})

describe('a named decision', () => {
  it('needs the name', async () => {
    const app = openDraw(DECISION)
    const user = userEvent.setup({ advanceTimers: vi.advanceTimersByTime })
    await user.click(screen.getByRole('button', { name: 'Go ahead' }))
    expect(app.calls).toEqual([])
    await user.type(screen.getByLabelText('Who decided?'), 'Dr. Oakes')
    await user.click(screen.getByRole('button', { name: 'Go ahead' }))
    expect(app.calls[0]?.[1]).toEqual({
      type: 'nameDecision',
      decision: 'proceed',
      by: 'Dr. Oakes',
    })
  })
})

describe('a closed draw', () => {
  const HOME = ['go', { name: 'home' }]
  const LEADS = [
    ['1', 'Read the chart note', ['go', { name: 'chart', drawId: CLOSED.drawId }]],
    ['2', 'Labels', ['go', { name: 'labels', drawId: CLOSED.drawId, from: 'draw' }]],
    ['3', 'Next patient', ['newDraw']],
    ['{Escape}', 'Back to the start', HOME],
  ] as const
  /** Longer than a press waits after the close, and longer than a digit waits for a scanner behind it. */
  const wait = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms))

  it.each(LEADS)('by key %s, or by its button, leads on: %s', async (key, name, call) => {
    const app = openDraw(CLOSED)
    await wait(650)
    await userEvent.keyboard(key)
    await wait(450)
    expect(app.calls).toEqual([call])
    await userEvent.click(screen.getByRole('button', { name }))
    expect(app.calls).toEqual([call, call])
  })

  it('takes no key in the moment after the close, nor what a scanner types', async () => {
    const app = renderApp({ screen: { name: 'draw', drawId: CLOSED.drawId }, draw: CLOSED })
    fireEvent.keyDown(document.body, { key: 'Escape', code: 'Escape' })
    fireEvent.keyDown(document.body, { key: '1', code: 'Digit1' })
    fireEvent.keyUp(document.body, { key: '1', code: 'Digit1' })
    expect(app.calls).toEqual([])
    await wait(650)
    expect(app.calls).toEqual([])
    await userEvent.keyboard('123456{Enter}')
    await wait(450)
    expect(app.calls).toEqual([])
  })

  it('leads to its chart note', async () => {
    const app = openDraw(CLOSED)
    await userEvent.click(screen.getByRole('button', { name: 'Read the chart note' }))
    expect(app.calls).toEqual([['go', { name: 'chart', drawId: CLOSED.drawId }]])
  })
})

describe('a draw at another chair', () => {
  const elsewhere = {
    text: 'Chair 2 runs this draw.',
    takeOver: 'Take over at this chair',
    ask: { question: 'Did Chair 2 agree?', yes: 'Yes, take it over', no: 'No, look on' },
  }

  it('is taken over by two presses: who stands there is asked first', async () => {
    const { calls } = openDraw({ ...FILLING, elsewhere })
    await userEvent.click(screen.getByRole('button', { name: elsewhere.takeOver }))
    expect(screen.getByRole('alert').textContent).toContain(elsewhere.ask.question)
    await userEvent.click(screen.getByRole('button', { name: elsewhere.ask.no }))
    expect(calls).not.toContainEqual(['takeOver'])
    await userEvent.click(screen.getByRole('button', { name: elsewhere.takeOver }))
    await userEvent.click(screen.getByRole('button', { name: elsewhere.ask.yes }))
    expect(calls).toContainEqual(['takeOver'])
  })
})
