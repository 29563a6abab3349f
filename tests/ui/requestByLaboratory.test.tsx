// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it, vi } from 'vitest'
import { planSittings } from '../../src/core/plan/planSittings.ts'
import { planInput } from '../support/planning.ts'
import { sampleLog } from '../support/sampleLog.ts'
import { STATE } from '../support/views.ts'
import { renderApp } from './renderApp.tsx'

const pages = (): readonly string[] =>
  [...document.querySelectorAll('.requestForm')].map(({ textContent }) => textContent ?? '')

/** Vitamin D and sodium are both measured in serum, and go to two of the shipped laboratories. */
const TESTS = ['sodium', 'vitaminD', 'cbc']

describe('the request on paper', () => {
  it('has a page for each laboratory, with its tests alone, and names what a tube holds for another', () => {
    const sittings = planSittings(planInput(TESTS))
    const draft = { ...STATE.draft, tests: TESTS }
    renderApp({ screen: { name: 'plan' }, plan: sittings[0].plan, sittings, draft })
    const [main = '', reference = ''] = pages()
    expect(pages()).toHaveLength(2)
    expect(main).toContain('Main laboratory (invented)')
    expect(main).toContain('Page 1 of 2 of this order')
    // The names come from services that are invented here.
    expect(main).toContain('cbc')
    expect(reference).toContain('Reference laboratory (invented)')
    expect(reference).not.toContain('cbc')
    // One tube cannot go to two laboratories: said on both pages and on the screen.
    expect(main).toMatch(/also holds vitaminD for Reference laboratory \(invented\)/)
    expect(reference).toMatch(/also holds sodium for Main laboratory \(invented\)/)
    expect(screen.getAllByText(/a second tube, or an aliquot/).length).toBeGreaterThan(0)
  })

  it('is printed from the record as well: numbers and times of the tubes that hold blood', async () => {
    const log = sampleLog()
    const { services } = renderApp({
      screen: { name: 'chart', drawId: log.drawId },
      records: new Map([[log.drawId, log]]),
    })
    const print = vi.spyOn(services.page, 'print')
    expect(pages()).toEqual([])
    await userEvent.click(screen.getByRole('button', { name: 'Print the request' }))
    expect(print).toHaveBeenCalledOnce()
    expect(pages()[0]).toContain('D7261125000301')
    expect(pages()[0]).toMatch(/collected \d\d? \w{3} \d{4} \d\d:\d\d/)
    expect(pages().length).toBeGreaterThan(0)
    // The note goes on paper again without the request.
    await userEvent.click(screen.getByRole('button', { name: 'Print' }))
    expect(print).toHaveBeenCalledTimes(2)
    expect(pages()).toEqual([])
  })
})
