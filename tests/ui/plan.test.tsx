// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it, vi } from 'vitest'
import { PLAN } from '../support/plans.ts'
import { SCENES } from '../support/scenes.ts'
import { renderApp } from './renderApp.tsx'

const rows = () =>
  within(screen.getByRole('list', { name: 'Tubes in order of draw' })).getAllByRole('heading', {
    level: 3,
  })

describe('the plan', () => {
  it('proposes the heel also where a vein gives no tube at all', async () => {
    const empty = { ...PLAN, tubes: [], advises: 'capillaryHeel' as const }
    const { calls } = renderApp({ ...SCENES.plan, plan: empty })
    await userEvent.click(screen.getByRole('button', { name: 'Plan it that way' }))
    expect(calls).toContainEqual(['editDraft', { collecting: 'capillaryHeel' }])
    expect(calls).toContainEqual(['makePlan'])
  })

  it('lists the tubes in order of draw', () => {
    renderApp(SCENES.plan)
    expect(rows().map((h) => h.textContent)).toEqual(
      PLAN.tubes.map((tube, i) => `Tube ${i + 1}: ${tube.name}`),
    )
  })

  it('says volume, inversions, window, handling and tests of a tube', () => {
    renderApp(SCENES.plan)
    const words = rows()[4]?.closest('li')?.textContent ?? ''
    for (const part of [
      '3 mL',
      '8 to 10 times',
      '5 to 10 s',
      'On ice at once',
      'Within 30 min of collection',
      'Complete blood count, Hemoglobin A1c',
      'lavender cap',
    ]) {
      expect(words).toContain(part)
    }
  })

  it('gives blood against its limit and when the band comes off', () => {
    renderApp(SCENES.plan)
    const blood = screen.getByRole('region', { name: 'Blood' }).textContent
    expect(blood).toContain('21.7 mL')
    expect(blood).toContain('of 150 mL advised in one draw; 0.52 %')
    const band = screen.getByRole('region', { name: 'Band (tourniquet)' }).textContent
    expect(band).toContain('about 58 s')
    expect(band).toContain('Take the band off as soon as blood flows into the first tube.')
  })

  it('starts the draw', async () => {
    const app = renderApp(SCENES.plan)
    await userEvent.click(screen.getByRole('button', { name: 'Start the draw' }))
    expect(app.calls).toEqual([['openDraw']])
  })

  it('prints the request of that patient, with a line for what nobody said', async () => {
    const { services } = renderApp(SCENES.plan)
    const print = vi.spyOn(services.page, 'print')
    await userEvent.click(screen.getByRole('button', { name: 'Print the request' }))
    expect(print).toHaveBeenCalledOnce()
    const form = document.querySelector('.requestForm')
    expect(form?.textContent).toContain('Request for blood tests')
    expect(form?.textContent).toContain('Last dose: what, how much, when')
    for (const { name } of PLAN.tubes) expect(form?.textContent).toContain(name)
  })

  it('draws the volumes to scale', () => {
    renderApp(SCENES.plan)
    const marks = [...document.querySelectorAll('.rackPicture svg > g')].map(
      (tube) => tube.querySelectorAll('.graduation').length,
    )
    expect(marks).toEqual([8, 3, 2, 5, 3])
  })
})

describe('a plan with problems', () => {
  it('cannot be started, says why, and leads back to the order', async () => {
    const app = renderApp(SCENES.planStopped)
    expect(screen.queryByRole('button', { name: 'Start the draw' })).toBeNull()
    const stop = screen.getByRole('alert', { name: /Both arms/ })
    expect(stop.textContent).toContain('Both arms have a restriction.')
    await userEvent.click(screen.getAllByRole('button', { name: 'Back to the order' })[0]!)
    expect(app.calls).toEqual([['go', { name: 'order' }]])
  })

  it('each stop has a way on: who decides, and why', async () => {
    const app = renderApp(SCENES.planStopped)
    const stop = within(screen.getByRole('alert', { name: /Both arms/ }))
    await userEvent.type(stop.getByLabelText('Who decides (full name)'), 'Dr. Invented')
    await userEvent.type(stop.getByLabelText('Why the draw may go on'), 'left arm, no other way')
    await userEvent.click(stop.getByRole('button', { name: 'Record the decision' }))
    const decision = { about: 'bothArms', by: 'Dr. Invented', reason: 'left arm, no other way' }
    expect(app.calls).toEqual([['approveStop', decision]])
  })

  it('names the tests that no tube serves', () => {
    renderApp(SCENES.planStopped)
    const box = screen.getByRole('region', { name: 'No tube serves these tests' })
    expect(box.textContent).toContain('Complete blood count: no EDTA tube that is in date.')
  })
})
