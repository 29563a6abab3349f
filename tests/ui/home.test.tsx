// @vitest-environment jsdom
import { render, screen, within } from '@testing-library/react'
import { App } from '../../src/ui/App.tsx'
import { fakeApp } from '../support/fakeApp.ts'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { DAY_SCENES } from '../support/dayScenes.ts'
import { STATE } from '../support/views.ts'
import { renderApp } from './renderApp.tsx'

const press = (name: string | RegExp) => userEvent.click(screen.getByRole('button', { name }))

describe('the first screen', () => {
  it('begins the demo and a new draw', async () => {
    const app = renderApp()
    await press(/^Try the invented demo/)
    await press(/^New draw/)
    expect(app.calls).toEqual([['startDemo'], ['newDraw']])
  })

  it('resumes what is unfinished and opens what is closed', async () => {
    const app = renderApp()
    await press('Go on with the draw of Marlo Quince')
    await press(/^Open the record of Tamsin Vale/)
    expect(app.calls).toEqual([
      ['go', { name: 'draw', drawId: 'd1' }],
      ['go', { name: 'chart', drawId: 'd0' }],
    ])
  })

  it('shows the names of earlier patients only when asked to', async () => {
    const draws = STATE.draws.map((draw) => ({ ...draw, invented: false }))
    renderApp({ draws })
    expect(screen.queryByText('Tamsin Vale')).toBeNull()
    expect(screen.getByRole('button', { name: /^Open the record of Draw d0/ })).toBeTruthy()
    await press('Show names')
    expect(screen.getByText('Tamsin Vale')).toBeTruthy()
    await press('Hide names')
    expect(screen.queryByText('Tamsin Vale')).toBeNull()
  })

  it('says what it is not and where the data stays', () => {
    renderApp()
    expect(screen.getByText(/no diagnosis and no orders/)).toBeTruthy()
    expect(screen.getByText(/Everything stays on this device/)).toBeTruthy()
  })

  it('does not offer screens that are not there', () => {
    renderApp({}, { scenarios: [] })
    expect(screen.queryByRole('button', { name: /^Practice/ })).toBeNull()
    expect(screen.getByRole('button', { name: /^Catalog/ })).toBeTruthy()
  })

  it('shows trouble until it is understood', async () => {
    const app = renderApp({ trouble: 'The record could not be saved.' })
    expect(screen.getByRole('alert').textContent).toContain('could not be saved')
    await press('Understood')
    expect(app.calls).toEqual([['dismissTrouble']])
  })
})

describe('the first screen as the day', () => {
  const order = (a: Element | null, b: Element | null): boolean =>
    a !== null &&
    b !== null &&
    Boolean(a.compareDocumentPosition(b) & a.DOCUMENT_POSITION_FOLLOWING)
  const one = (selector: string): Element | null => document.querySelector(selector)

  it('has what is due in one block on top, then the list, the bench, and the rest', () => {
    renderApp(DAY_SCENES['dayFull']?.().state)
    const due = within(screen.getByRole('region', { name: 'To see to now' }))
    expect(due.getByRole('button', { name: 'Go on with the draw of Di Moor' })).toBeTruthy()
    expect(due.getByRole('button', { name: 'Draw 1 h of Alex Invented' })).toBeTruthy()
    expect(due.getByRole('button', { name: 'Drink finished now' })).toBeTruthy()
    expect(due.getByRole('button', { name: /^On the bench: 26 specimens/ })).toBeTruthy()
    expect(due.getByRole('button', { name: /^For the courier: 5 specimens/ })).toBeTruthy()
    const parts = ['.dueNow', '.dayList', '.benchSummary', '.caution', '.places'].map(one)
    expect(parts.slice(1).every((part, i) => order(parts[i] ?? null, part))).toBe(true)
  })

  it('without a list begins with a draw, and shows no block where nothing is due', () => {
    renderApp(DAY_SCENES['dayNone']?.().state)
    expect(one('.dueNow')).toBeNull()
    expect(one('.benchSummary')).toBeNull()
    expect(order(one('.begin'), one('.dayList'))).toBe(true)
    expect(screen.getByRole('button', { name: /^New draw/ }).classList).toContain('go')
  })

  it('hides every name of the day at once', async () => {
    renderApp(DAY_SCENES['dayFull']?.().state)
    expect(document.body.textContent).toMatch(/Di Moor|Alex Invented|Pia Sand/)
    await press('Hide names')
    expect(document.body.textContent).not.toMatch(/Moor|Alex|Pia|Testwell|Fauxley|MRN-/)
    const named = [...document.querySelectorAll('[aria-label]')].map((each) => each.ariaLabel)
    expect(named.join(' ')).not.toMatch(/Moor|Alex|Pia|Testwell|Fauxley/)
  })
})

describe('settings', () => {
  it('change one value at a time', async () => {
    const app = renderApp({ screen: { name: 'settings' } })
    await userEvent.click(screen.getByLabelText('Listen during a draw'))
    await userEvent.selectOptions(screen.getByLabelText('Paper'), 'Letter')
    expect(app.calls).toEqual([
      ['changeSettings', { voiceOn: false }],
      ['changeSettings', { paper: 'letter' }],
    ])
  })

  it('say that no sound is kept', () => {
    renderApp({ screen: { name: 'settings' } })
    expect(screen.getByText(/No sound is stored or sent/)).toBeTruthy()
  })
})

it('says that the records are kept at another address, and leads there', () => {
  renderApp({ keptAt: 'http://localhost:4173/' })
  const told = screen.getByRole('alert')
  expect(told.textContent).toContain('Records of this app are kept at http://localhost:4173/.')
  expect(within(told).getByRole('link').getAttribute('href')).toBe('http://localhost:4173/')
})

describe('two thousand stored draws', () => {
  const draws = Array.from({ length: 2000 }, (_, i) => ({
    drawId: `d${i}`,
    opened_ms: 1_795_000_000_000 + i,
    closed: i >= 200,
    patientName: 'Marlo Quince',
    invented: true,
  }))

  it('show as few as fit, the newest first, and more with each press', async () => {
    const { container } = render(<App port={fakeApp({ draws })} />)
    expect(container.querySelectorAll('*').length).toBeLessThan(500)
    expect(container.querySelectorAll('.unfinished li')).toHaveLength(3)
    expect(container.querySelectorAll('.earlier li')).toHaveLength(20)
    await userEvent.click(screen.getByRole('button', { name: 'Show more of 1780 others' }))
    expect(container.querySelectorAll('.earlier li')).toHaveLength(70)
    await userEvent.click(screen.getByRole('button', { name: 'Show more of 197 others' }))
    expect(container.querySelectorAll('.unfinished li')).toHaveLength(53)
  })
})

it('takes the same file again after it was refused', async () => {
  const app = renderApp()
  const file = new File(['{}'], 'log.json', { type: 'application/json' })
  const input = screen.getByLabelText<HTMLInputElement>(/record from another device/, {
    selector: 'input',
  })
  await userEvent.upload(input, file)
  expect(input.value).toBe('')
  await userEvent.upload(input, file)
  expect(app.calls).toEqual([
    ['importLog', file],
    ['importLog', file],
  ])
})
