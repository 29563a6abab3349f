// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import { describe, expect, it } from 'vitest'
import { planSittings } from '../../src/core/plan/planSittings.ts'
import { planInput } from '../support/planning.ts'
import { DRAFT } from '../support/views.ts'
import { renderApp } from './renderApp.tsx'

const planOf = (test: string, moments: object = {}) => {
  const sittings = planSittings(planInput([test]))
  const draft = { ...DRAFT, tests: [test], moments }
  return renderApp({ screen: { name: 'plan' }, plan: sittings[0].plan, sittings, draft })
}

/** The span before the dose: Santalo 2016, Pharmacy 4:37, doi 10.3390/pharmacy4040037. */
describe('a level on the plan', () => {
  it('a trough is drawn before the dose that the order names', () => {
    planOf('vancomycinTrough', { nextDose: '2026-11-25T18:00' })
    expect(screen.getByText('Draw before the dose at 18:00, from 17:30 on.')).toBeTruthy()
    const paper = document.querySelector('.requestForm')?.textContent
    expect(paper).toContain('When: next dose due2026-11-25 18:00')
  })

  it('of which nobody told the dose says what it waits for', () => {
    planOf('vancomycinTrough')
    expect(screen.getByText('Within 30 min before: next dose due.')).toBeTruthy()
  })

  it('a peak is due after the infusion that has ended', () => {
    planOf('gentamicinPeak', { infusionEnded: '2026-11-25T17:40' })
    expect(screen.getByText('30 min after: infusion ended. Due at 18:10.')).toBeTruthy()
  })
})

describe('a level on the order form', () => {
  it.each([
    ['vancomycinTrough', 'When: next dose due'],
    ['gentamicinPeak', 'When: infusion ended'],
  ])('%s asks %s, and when the last dose was', (test, label) => {
    renderApp({ screen: { name: 'order' }, draft: { ...DRAFT, tests: [test] } })
    expect(screen.getByText(label)).toBeTruthy()
    expect(screen.getAllByText(/^Last dose before:/)).not.toEqual([])
  })

  it('asks neither of an order without levels', () => {
    renderApp({ screen: { name: 'order' }, draft: { ...DRAFT, tests: ['cbc'] } })
    expect(screen.queryByText(/^When:/)).toBeNull()
  })
})
