// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { planSittings } from '../../src/core/plan/planSittings.ts'
import { planInput, SITE } from '../support/planning.ts'
import { SAMPLE_START_ms } from '../support/sampleLog.ts'
import { sampleSeries } from '../support/sampleSeries.ts'
import { renderApp } from './renderApp.tsx'

const MIN = 60_000
/** Told 400 s after the opening: the 1 h sample is due 10:06:40. */
const TOLD = sampleSeries([[400, { type: 'momentNoted', moment: 'drinkFinished' }]])
/** Due times alone: a draw that runs has its clock above. */
const timers = () =>
  within(screen.getByRole('region', { name: 'Timed samples' })).getAllByRole('timer')
const press = (name: string | RegExp) => userEvent.click(screen.getByRole('button', { name }))
const at = (minutes: number) => SAMPLE_START_ms + minutes * MIN

describe('timed samples on the first screen', () => {
  it('are not there where no series is open', () => {
    renderApp()
    expect(screen.queryByRole('heading', { name: 'Timed samples' })).toBeNull()
  })

  it('wait for their moment, which is told with one press', async () => {
    const app = renderApp({ series: [sampleSeries()] })
    expect(screen.getAllByText('Waits for: drink finished.')).toHaveLength(2)
    await press('Drink finished now')
    expect(app.calls).toEqual([['tellMoment', sampleSeries().id, 'drinkFinished']])
  })

  it.each([
    [54, 'due 10:06 in 13 min'],
    [67, 'due 10:06 now'],
    [78.7, 'due 10:06 12 min ago'],
  ])('at minute %s say %s', (minutes, text) => {
    renderApp({ series: [TOLD], seriesNow_ms: at(minutes) })
    const [first] = timers()
    expect(first?.textContent).toBe(text)
  })

  it('open the draw of their own sitting', async () => {
    const app = renderApp({ series: [TOLD] })
    await press('Draw 2 h of Alex Invented')
    expect(app.calls).toEqual([['openSitting', TOLD.id, 'ogtt75/3']])
  })

  it('are corrected only with a reason, and both times stay to be seen', async () => {
    const app = renderApp({ series: [TOLD] })
    await userEvent.click(screen.getByText('Correct the time'))
    const write = screen.getByRole('button', { name: 'Write it down' })
    await userEvent.type(screen.getByLabelText('Drink finished at'), '09:05')
    expect(write.hasAttribute('disabled')).toBe(true)
    const [why] = screen.getAllByLabelText('Reason')
    await userEvent.type(why!, 'slip')
    await userEvent.click(write)
    expect(app.calls).toEqual([
      ['tellMoment', TOLD.id, 'drinkFinished', { time: '09:05', why: 'slip' }],
    ])
  })

  it('are left out only with a reason', async () => {
    const app = renderApp({ series: [TOLD] })
    await userEvent.click(screen.getByText('Leave samples out'))
    const leave = screen.getByRole('button', { name: 'Leave out' })
    await userEvent.click(screen.getByRole('checkbox', { name: '2 h' }))
    expect(leave.hasAttribute('disabled')).toBe(true)
    await userEvent.type(screen.getAllByLabelText('Reason').at(-1)!, 'vomited')
    await userEvent.click(leave)
    expect(app.calls).toEqual([['leaveOutSittings', TOLD.id, ['ogtt75/3'], 'vomited']])
  })

  it.each([
    ['the drink is not told', sampleSeries(), 30, []],
    ['it is told and not yet time', TOLD, 30, []],
    ['it is within the time that counts', TOLD, 63, ['Draw 1 h']],
  ] as const)(
    'show as the next thing to do what may be drawn now: %s',
    (_when, series, minute, filled) => {
      renderApp({ series: [series], seriesNow_ms: at(minute) })
      const buttons = screen.getAllByRole('button', { name: /^Draw / })
      expect(buttons).toHaveLength(2)
      const now = buttons.filter(({ classList }) => classList.contains('go'))
      expect(now.map(({ textContent }) => textContent)).toEqual(filled)
    },
  )

  it('say how old a series is that nobody closed', () => {
    renderApp({ series: [TOLD], seriesNow_ms: at(3 * 24 * 60) })
    expect(screen.getByText(/^Begun 3 days ago\. It stays here until/)).toBeTruthy()
  })

  it('that are due are told on other screens, and of nobody', () => {
    renderApp({ screen: { name: 'settings' }, dues_ms: [at(60)], seriesNow_ms: at(61) })
    expect(screen.getByText(/^A timed sample is due at/)).toBeTruthy()
    expect(document.body.textContent).not.toContain('Alex Invented')
  })

  it('wait where something happened, and go on with a name and a reason', async () => {
    const fainted = sampleSeries([[310, { type: 'exceptionRaised', kind: 'faint' }]])
    const app = renderApp({ series: [fainted] })
    expect(screen.getByRole('alert').textContent).toContain('In the draw for fasting: a faint.')
    expect(screen.queryAllByRole('button', { name: /^Draw / })).toEqual([])
    const goOn = screen.getByRole('button', { name: 'Go on with the series' })
    expect(goOn.hasAttribute('disabled')).toBe(true)
    await userEvent.type(screen.getByLabelText(/^Who says go on/), 'Dr. Pat Placeholder')
    const [why] = screen.getAllByLabelText(/^Reason/)
    await userEvent.type(why!, 'well again')
    await userEvent.click(goOn)
    expect(app.calls).toEqual([['goOnWithSeries', fainted.id, 'Dr. Pat Placeholder', 'well again']])
  })

  it('of practice stand apart from those of patients, with how long an hour lasts there', () => {
    const { sitting } = sampleSeries().opened
    const practice = sampleSeries([], {
      invented: true,
      sitting: { ...sitting!, practice: { script: 'whole-series', hour_min: 6 } },
    })
    renderApp({ series: [TOLD, { ...practice, id: 'practice' }] })
    const ofPatients = screen.getByRole('region', { name: 'Timed samples' })
    const rehearsed = screen.getByRole('region', { name: 'Practice series' })
    expect(within(ofPatients).getAllByRole('listitem').length).toBeGreaterThan(0)
    expect(ofPatients.textContent).not.toContain('lasts 6 min')
    expect(rehearsed.textContent).toContain('no patient waits for these')
    expect(rehearsed.textContent).toContain(
      'Here an hour of waiting lasts 6 min. In life it is an hour.',
    )
    expect(within(rehearsed).getByText('Invented')).toBeTruthy()
  })

  it('before a next dose are told by the time of that dose, which has no now', async () => {
    const { sitting } = sampleSeries().opened
    const trough = { from: 'nextDose', after_min: -15, tolerance_min: 15 } as const
    const [first] = sitting!.later!
    const later = [{ ...first!, point: 'trough', ...trough }]
    const opening = { sitting: { ...sitting!, later } }
    const app = renderApp({ series: [sampleSeries([], opening)] })
    expect(screen.getByText('Waits for: next dose due.')).toBeTruthy()
    expect(screen.queryByRole('button', { name: /now$/ })).toBeNull()
    await userEvent.click(screen.getByText('At another time'))
    await userEvent.type(screen.getByLabelText(/^Next dose due at/), '10:30')
    await press('Write it down')
    const told = { time: '10:30', why: '' }
    expect(app.calls).toEqual([['tellMoment', sampleSeries().id, 'nextDose', told]])
    const at_ms = at(60)
    const noted = { type: 'momentNoted', moment: 'nextDose', at_ms } as const
    renderApp({ series: [sampleSeries([[400, noted]], opening)], seriesNow_ms: at(20) })
    expect(screen.getAllByText(/before the dose at 10:00/)).toHaveLength(1)
  })

  it('of two patients are put in the order in which they are due', () => {
    const later = sampleSeries([[1000, { type: 'momentNoted', moment: 'drinkFinished' }]])
    renderApp({ series: [{ ...later, id: 'later' }, TOLD], seriesNow_ms: at(30) })
    const times = timers().map((timer) => timer.textContent)
    expect(times[0]).toMatch(/^due 10:06/)
    expect(times[2]).toMatch(/^due 10:16/)
  })
})

describe('the plan of an order of several draws', () => {
  it('shows every draw with its tubes and the blood of all', () => {
    const sittings = planSittings(planInput(['ogtt75']))
    renderApp({ screen: { name: 'plan' }, plan: sittings[0].plan, sittings })
    const later = screen.getByRole('heading', { name: '3 draws' }).parentElement!
    expect(within(later).getByText(/6.* mL of blood in all draws together/)).toBeTruthy()
    expect(within(later).getByText('60 min after: drink finished.')).toBeTruthy()
    expect(within(later).getByRole('list', { name: 'Tubes, 2 h' })).toBeTruthy()
  })

  it('does not start while a later draw has a stop that nobody decided', () => {
    const { stock, ...input } = planInput(['ogtt75'])
    const one = stock.filter(({ tubeCode }) => /fluoride/i.test(tubeCode)).slice(0, 1)
    const sittings = planSittings({ ...input, stock: [{ ...one[0]!, count: 2 }] })
    renderApp({ screen: { name: 'plan' }, plan: sittings[0].plan, sittings })
    expect(screen.queryByRole('button', { name: 'Start the draw' })).toBeNull()
    expect(screen.getByRole('alert').textContent).toContain(
      SITE.catalogue.tests.find(({ code }) => code === 'glucose75g2h')!.name,
    )
  })
})

describe('while the records are locked', () => {
  it('a sample is told as due, and of nobody', () => {
    const lock = { state: 'locked' } as const
    renderApp({ lock: { ...LOCKED, ...lock }, dues_ms: [at(60)], series: [] })
    expect(screen.getByText(/A timed sample is due at/)).toBeTruthy()
    expect(document.body.textContent).not.toContain('Alex Invented')
  })
})

const LOCKED = {
  ...{ isBusy: false, wait_s: 0, told: undefined, done: undefined, recoveryKey: undefined },
  ...{ sealing: undefined, unsealing: undefined },
}
