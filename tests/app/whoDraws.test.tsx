// @vitest-environment jsdom
import { cleanup, render, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { afterEach, describe, expect, it } from 'vitest'
import { initialsOf } from '../../src/app/site/whoDraws.ts'
import { openingOf } from '../../src/core/record/openingOf.ts'
import { App } from '../../src/ui/App.tsx'
import { appRig } from '../support/appRig.ts'
import { SERVICES } from '../support/fakeServices.ts'

afterEach(cleanup)

async function rigged() {
  const rig = appRig()
  await rig.app.start()
  const services = { ...SERVICES, now_ms: () => rig.clock.read().wall_ms }
  render(<App port={{ store: rig.app.store, actions: rig.actions, services }} />)
  return { rig, user: userEvent.setup() }
}

/** The plan of a patient, with nobody said to draw. */
async function planned() {
  const app = await rigged()
  await app.rig.plan()
  app.rig.actions.changeSettings({ collectorName: '', collectorInitials: '', collectorSaid_ms: 0 })
  const asked = await screen.findByRole('region', { name: 'Who draws?' })
  return { ...app, asked: within(asked) }
}

describe('who draws', () => {
  it('is asked before the first draw of a patient, and stands in its record', async () => {
    const { rig, user, asked } = await planned()
    expect(screen.queryByRole('button', { name: 'Start the draw' })).toBeNull()
    await user.click(asked.getByRole('button', { name: 'I draw' }))
    expect(asked.getByText('Give your name and your initials.')).toBeTruthy()
    await user.type(asked.getByLabelText('Your name'), 'Ada van Lund')
    expect(asked.getByLabelText('Your initials')).toHaveProperty('value', 'AVL')
    await user.type(asked.getByLabelText('Site'), 'Invented practice')
    await user.click(asked.getByRole('button', { name: 'I draw' }))
    await user.click(screen.getByRole('button', { name: 'Start the draw' }))
    await rig.settle()
    const [draw] = rig.state().draws
    const { collector, site } = openingOf(await rig.stored(draw?.drawId ?? ''))
    expect(collector).toMatchObject({ name: 'Ada van Lund', initials: 'AVL' })
    expect(site).toBe('Invented practice')
  })

  it('holds the draw however it is asked for', async () => {
    const { rig } = await planned()
    await rig.actions.openDraw()
    expect(rig.state()).toMatchObject({ screen: { name: 'plan' }, draws: [] })
  })

  it('is not carried into another shift: it is asked again, and one press says that it is the same person', async () => {
    const { rig, user } = await planned()
    rig.actions.sayWhoDraws({ name: 'Ada Lund', initials: 'AL', siteName: '' })
    rig.clock.advance(12 * 3_600_000 + 1000)
    await rig.actions.openDraw()
    expect(rig.state().draws).toEqual([])
    await rig.actions.go({ name: 'home' })
    expect(await screen.findByText(/Ada Lund drew here last/)).toBeTruthy()
    await user.click(screen.getByRole('button', { name: 'Still Ada Lund' }))
    expect(screen.getByText(/Drawing here: Ada Lund, AL/)).toBeTruthy()
    await rig.actions.openDraw()
    expect(rig.state().draws).toHaveLength(1)
  })

  it('counts as long ago when the clock was set back', async () => {
    const { rig } = await planned()
    const later_ms = rig.clock.read().wall_ms + 24 * 3_600_000
    rig.actions.changeSettings({
      collectorName: 'Ada',
      collectorInitials: 'A',
      collectorSaid_ms: later_ms,
    })
    await rig.actions.openDraw()
    expect(rig.state().draws).toEqual([])
  })

  it('can be said anew at any time on the first screen, and begins with nobody', async () => {
    const { rig, user } = await rigged()
    expect(screen.getByText(/Nobody has said yet who draws here/)).toBeTruthy()
    rig.actions.sayWhoDraws({ name: 'Ada Lund', initials: 'AL', siteName: 'Invented practice' })
    await user.click(await screen.findByRole('button', { name: 'Somebody else' }))
    expect(screen.getByLabelText('Your name')).toHaveProperty('value', 'Ada Lund')
    await user.clear(screen.getByLabelText('Your name'))
    await user.type(screen.getByLabelText('Your name'), 'Bo Example')
    await user.clear(screen.getByLabelText('Your initials'))
    await user.type(screen.getByLabelText('Your initials'), 'BE')
    await user.click(screen.getByRole('button', { name: 'I draw' }))
    expect(rig.state().settings).toMatchObject({
      collectorName: 'Bo Example',
      collectorInitials: 'BE',
    })
  })

  it('is not asked for the invented demonstration', async () => {
    const { rig } = await rigged()
    rig.actions.startDemo()
    rig.actions.makePlan()
    expect(await screen.findByRole('button', { name: 'Start the draw' })).toBeTruthy()
    expect(screen.queryByRole('region', { name: 'Who draws?' })).toBeNull()
  })

  it.each([
    ['Ada van Lund', 'AVL'],
    ['Jean-Luc Émile', 'JLÉ'],
    ['', ''],
  ])('suggests the initials of %s', (name, initials) => expect(initialsOf(name)).toBe(initials))
})
