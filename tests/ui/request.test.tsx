// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it, vi } from 'vitest'
import { planSittings } from '../../src/core/plan/planSittings.ts'
import { planInput } from '../support/planning.ts'
import { sampleSeries } from '../support/sampleSeries.ts'
import { SCENES } from '../support/scenes.ts'
import { renderApp } from './renderApp.tsx'

/** What stands on the paper: shown when printing, and there alone. */
const paper = (): string => document.querySelector('.requestForm')?.textContent ?? ''
/** A draw that a provider has to decide about. */
const RESTRICTED = planSittings(
  planInput(['cmp', 'cbc'], {
    preparation: {
      ...{ anticoagulant: 'none', latexAllergy: false, faintedBefore: false },
      restrictions: { left: 'nodeRemoval', right: 'nodeRemoval' },
    },
  }),
)
const BOTH_ARMS = {
  screen: { name: 'plan' },
  plan: RESTRICTED[0].plan,
  sittings: RESTRICTED,
} as const
const HELD = 'HELD: do not draw until this is decided'

describe('the printed request', () => {
  it('of an order that nothing holds says nothing of it', () => {
    renderApp(SCENES.plan)
    expect(paper()).toContain('Request for blood tests')
    expect(paper()).not.toContain('HELD')
    expect(paper()).not.toContain('Decided by a provider')
  })

  it('of a draw that waits for a provider says so, why, and leaves a line for the decision', () => {
    renderApp(BOTH_ARMS)
    expect(paper()).toContain(HELD)
    expect(paper()).toContain(
      'Both arms are restricted. Ask the provider where blood may be taken.',
    )
    expect(paper()).toContain('Decided by, date, time:')
  })

  it('tells what was decided, by whom and why, and no longer holds for it', () => {
    const decided = { by: 'Dr. Placeholder', reason: 'the left arm, no other way', at_ms: 0 }
    renderApp({ ...BOTH_ARMS, approvals: [{ about: 'bothArms', ...decided }] })
    expect(paper()).not.toContain('HELD')
    expect(paper()).toContain('Dr. Placeholder lets the draw go on: the left arm, no other way')
  })

  it('is held by a stop of a later draw as well', () => {
    const { stock, ...input } = planInput(['ogtt75'])
    const one = stock.filter(({ tubeCode }) => /fluoride/i.test(tubeCode)).slice(0, 1)
    const sittings = planSittings({ ...input, stock: [{ ...one[0]!, count: 2 }] })
    renderApp({ screen: { name: 'plan' }, plan: sittings[0].plan, sittings })
    expect(paper()).toContain(HELD)
  })

  it('of a held series says so with its reason, what was drawn, and keeps a line for the rest', async () => {
    const fainted = sampleSeries([[310, { type: 'exceptionRaised', kind: 'faint' }]])
    const { services } = renderApp({ series: [fainted] })
    const print = vi.spyOn(services.page, 'print')
    await userEvent.click(screen.getByRole('button', { name: 'Print the request' }))
    expect(print).toHaveBeenCalledOnce()
    expect(paper()).toContain(HELD)
    expect(paper()).toContain('The rest of the series waits after a faint.')
    expect(paper()).toContain('Alex Invented')
    expect(paper()).toMatch(/fasting.*drawn \d\d:\d\d/)
    expect(paper()).toMatch(/1 h.*Collected on, at ____/)
  })

  it('of a series that was gone on with names who let it', async () => {
    const holds = [{ drawId: sampleSeries().id, why: 'faint', nth: 1 }] as const
    const on = sampleSeries([
      [310, { type: 'exceptionRaised', kind: 'faint' }],
      [400, { type: 'seriesWentOn', holds, by: 'Dr. Placeholder', why: 'well again' }],
    ])
    renderApp({ series: [on] })
    await userEvent.click(screen.getByRole('button', { name: 'Print the request' }))
    expect(paper()).not.toContain('HELD')
    expect(paper()).toContain('Gone on with after a faint, by Dr. Placeholder: well again')
  })
})

describe('several draws of one plan', () => {
  it('each has a heading with its number and what it stands for, the first as well', () => {
    renderApp(SCENES.planOfSeries)
    const heads = screen.getAllByRole('heading', { name: /^Draw \d of 3/ })
    expect(heads.map(({ textContent }) => textContent?.slice(0, 20))).toEqual([
      'Draw 1 of 3 fasting ',
      'Draw 2 of 3 1 h Gluc',
      'Draw 3 of 3 2 h Gluc',
    ])
    // The first stands over its own tubes, before those of the others.
    const first = screen.getByRole('list', { name: 'Tubes in order of draw' })
    const order = Node.DOCUMENT_POSITION_FOLLOWING
    expect(heads[0]!.compareDocumentPosition(first) & order).toBeTruthy()
    expect(first.compareDocumentPosition(heads[1]!) & order).toBeTruthy()
    expect(within(heads[1]!.parentElement!).getByRole('list', { name: 'Tubes, 1 h' })).toBeTruthy()
  })

  it('of an order with one draw has no such heading', () => {
    renderApp(SCENES.plan)
    expect(screen.queryByRole('heading', { name: /^Draw \d of/ })).toBeNull()
  })
})
