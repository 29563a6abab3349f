// @vitest-environment jsdom
import { act, fireEvent, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { texts } from '../../../src/data/en/texts.ts'
import { FULL_BENCH } from '../../support/benchView.ts'
import { renderApp } from '../renderApp.tsx'

const { bench } = texts
const onBench = () => renderApp({ screen: { name: 'bench' }, bench: FULL_BENCH })
const group = (step: keyof typeof bench.steps) =>
  within(screen.getByRole('region', { name: bench.steps[step].title }))

describe('the screen of the bench', () => {
  it('is reached from the places of the first screen', async () => {
    const app = renderApp()
    await userEvent.click(screen.getByRole('button', { name: new RegExp(`^${bench.title}`) }))
    expect(app.calls).toContainEqual(['go', { name: 'bench' }])
  })

  it('says that nothing is here, and whose word comes first', () => {
    renderApp({ screen: { name: 'bench' } })
    expect(screen.getByText(bench.empty)).toBeTruthy()
    expect(screen.getByText(bench.caution)).toBeTruthy()
  })

  it('tells the first screen how much is due, and of whom it does not', async () => {
    const app = renderApp({ bench: FULL_BENCH })
    const line = screen.getByRole('button', { name: new RegExp(`^${bench.onBench}`) })
    expect(line.textContent).toMatch(/[1-9]\d* specimens? to see to now.*passed a time limit/)
    expect(line.textContent).not.toMatch(/Alex|A\. I\./)
    await userEvent.click(line)
    expect(app.calls).toContainEqual(['go', { name: 'bench' }])
  })

  it('shows no name until somebody asks for it', async () => {
    onBench()
    expect(screen.queryAllByText(/Alex Invented/)).toEqual([])
    expect(screen.getAllByText('A. I.').length).toBeGreaterThan(0)
    await userEvent.click(screen.getByRole('checkbox', { name: bench.names }))
    expect(screen.getAllByText('Alex Invented').length).toBeGreaterThan(0)
  })

  it('says plainly what has passed its time, and what to do', () => {
    onBench()
    expect(screen.getAllByText(new RegExp(bench.overWhat.clotMost)).length).toBeGreaterThan(0)
  })

  it('acts on what is ticked, and on nothing where nothing is', async () => {
    const app = onBench()
    const parting = group('separate')
    await userEvent.click(parting.getByRole('button', { name: 'Separated (1)' }))
    expect(app.calls).toContainEqual([
      'bench.act',
      { type: 'separated' },
      [{ drawId: 'D7-20261125-0004', tubeIds: ['t1'] }],
    ])
    await userEvent.click(parting.getByRole('checkbox'))
    const none = parting.getByRole('button', { name: 'Separated (0)' })
    expect(none.hasAttribute('disabled')).toBe(true)
  })

  it('bags under the name on the bag alone', async () => {
    const app = onBench()
    const bagging = group('bag')
    expect(bagging.getByRole('button', { name: /Bagged/ }).hasAttribute('disabled')).toBe(true)
    await userEvent.type(bagging.getByRole('textbox'), 'B7{Tab}')
    await userEvent.keyboard('{Enter}')
    expect(app.calls).toContainEqual([
      'bench.act',
      { type: 'bagged', bag: 'B7' },
      [{ drawId: 'D7-20261125-0004', tubeIds: ['t3'] }],
    ])
  })

  it('a run has a picture, the same as a list, and its force, speed and source', async () => {
    const app = onBench()
    expect(screen.getByText(/^1300 g, 10 min/)).toBeTruthy()
    expect(screen.getAllByRole('img').length).toBe(2)
    // One gel tube and one blank against it, twelve places on.
    expect(screen.getAllByText(/^Place 1: /).length).toBe(2)
    expect(screen.getAllByText(/^Place 13: blank like/).length).toBe(2)
    const [start] = screen.getAllByRole('button', { name: 'In the spin (1)' })
    if (start) await userEvent.click(start)
    const [name, deed] = app.calls.at(-1) ?? []
    expect(name).toBe('bench.act')
    expect(deed).toMatchObject({ type: 'spinStarted', temperature: 'room' })
  })

  it('practice stands apart, without a button', () => {
    onBench()
    const practice = within(screen.getByRole('region', { name: bench.practice }))
    expect(practice.getAllByRole('listitem')).toHaveLength(3)
    expect(practice.queryAllByRole('button')).toEqual([])
  })

  it('an act said in error is taken back', async () => {
    const app = onBench()
    await userEvent.click(screen.getByRole('button', { name: /^Take back: Stored/ }))
    expect(app.calls.at(-1)).toEqual(['bench.takeBack', FULL_BENCH.acts[0]])
  })

  describe('by keys', () => {
    const HOLD = 700
    const wait = (ms: number) => act(() => new Promise((done) => setTimeout(done, ms)))
    const typed = (name: string) => {
      fireEvent.keyDown(document.body, { key: name, code: name })
      fireEvent.keyUp(document.body, { key: name, code: name })
    }
    /** A person's key stays down for a while. */
    const key = async (name: string) => {
      fireEvent.keyDown(document.body, { key: name, code: name })
      await wait(90)
      fireEvent.keyUp(document.body, { key: name, code: name })
    }
    const acts = (app: ReturnType<typeof onBench>) =>
      app.calls.filter(([name]) => name.startsWith('bench.'))

    it('each key stands on its button and presses it, once for two presses in haste', async () => {
      const app = onBench()
      await wait(HOLD)
      await key('3')
      await wait(100)
      await key('3')
      await wait(150)
      expect(acts(app)).toEqual([
        ['bench.act', { type: 'separated' }, [{ drawId: 'D7-20261125-0004', tubeIds: ['t1'] }]],
      ])
      const shown = [...document.querySelectorAll('[aria-keyshortcuts]')].map((each) => [
        each.getAttribute('aria-keyshortcuts'),
        each.querySelector('kbd')?.textContent,
      ])
      expect(new Set(shown.map(([name]) => name)).size).toBe(shown.length)
      expect(shown).toContainEqual(['1', '1'])
      expect(shown).toContainEqual(['Backspace', '⌫'])
    })

    it('what a scanner types presses nothing, nor does a digit in a field', async () => {
      const app = onBench()
      await wait(HOLD)
      for (const each of [...'D7261125000313', 'Enter']) typed(each)
      await wait(400)
      await userEvent.type(group('bag').getByRole('textbox'), '1')
      await wait(200)
      expect(acts(app)).toEqual([])
    })

    it('Backspace takes the last act back', async () => {
      const app = onBench()
      await wait(HOLD)
      await key('Backspace')
      expect(acts(app)).toEqual([['bench.takeBack', FULL_BENCH.acts[0]]])
    })
  })
})
