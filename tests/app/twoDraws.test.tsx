// @vitest-environment jsdom
import { act, cleanup, render, screen } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Screen } from '../../src/app/appApi.ts'
import { createAppServices } from '../../src/app/appServices.ts'
import { App } from '../../src/ui/App.tsx'
import { appRig, type AppRig } from '../support/appRig.ts'

const ANNA = { fullName: 'Anna First', birthDate: '1980-05-31', recordNumber: 'MRN-A' }
const BERTA = { fullName: 'Berta Second', birthDate: '1951-03-17', recordNumber: 'MRN-B' }

let rig: AppRig
let anna: string
let berta: string

/** The app on the screen, with Anna's draw closed and Berta's begun after it. */
beforeEach(async () => {
  window.scrollTo = () => undefined
  rig = appRig()
  await rig.app.start()
  anna = await rig.begin(ANNA)
  await rig.follow('closed')
  await rig.actions.go({ name: 'home' })
  berta = await rig.begin(BERTA)
  const { store, actions } = rig.app
  const services = createAppServices(rig.deps, store, actions)
  render(<App port={{ store, actions, services }} />)
})
afterEach(cleanup)

const shows = async (where: Screen): Promise<string> => {
  await act(() => rig.actions.go(where))
  return document.body.textContent
}

/** Every screen that shows a draw, opened for Anna: her name is on it and Berta's nowhere. */
async function expectOnlyAnna(): Promise<void> {
  const screens: readonly Screen[] = [
    { name: 'chart', drawId: anna },
    { name: 'labels', drawId: anna, from: 'chart' },
    { name: 'chart', drawId: anna },
    { name: 'labels', drawId: anna, from: 'draw' },
    { name: 'draw', drawId: anna },
    { name: 'labels', drawId: anna, from: 'draw' },
  ]
  for (const where of screens) {
    const text = await shows(where)
    expect(text, where.name).toContain('Anna First')
    expect(text, where.name).toContain('31 May 1980')
    expect(text, where.name).not.toMatch(/Berta|MRN-B|1951/)
  }
  await shows({ name: 'labels', drawId: anna, from: 'chart' })
  const labels = screen.getAllByRole('article').map(({ textContent }) => textContent)
  expect(labels.length).toBeGreaterThan(0)
  for (const label of labels) {
    expect(label).toContain('First, Anna')
    expect(label).toContain('MRN-A')
  }
}

describe('every screen opened for one draw shows that draw', () => {
  it('while another runs', async () => {
    await act(() => rig.follow('filling'))
    await expectOnlyAnna()
  })

  it('after another was closed on this page', async () => {
    await act(() => rig.follow('closed'))
    await expectOnlyAnna()
  })

  it('after the log of another was brought in', async () => {
    await act(() => rig.follow('closed'))
    const file = await rig.actions.exportRecord(berta, 'log')
    const elsewhere = appRig()
    await elsewhere.app.start()
    // The device that brings it in has Anna's draw and not Berta's.
    await elsewhere.deps.logStore.adopt(await rig.stored(anna), '')
    await elsewhere.actions.importLog(new File([file?.text ?? ''], 'log.json'))
    await elsewhere.actions.answerImport(true)
    expect(elsewhere.state().screen).toEqual({ name: 'chart', drawId: berta })
    cleanup()
    rig = elsewhere
    const { store, actions } = rig.app
    const services = createAppServices(rig.deps, store, actions)
    render(<App port={{ store, actions, services }} />)
    expect(document.body.textContent).toContain('Berta Second')
    await expectOnlyAnna()
  })

  it('and exports it', async () => {
    await act(() => rig.follow('closed'))
    await shows({ name: 'chart', drawId: anna })
    for (const format of ['note', 'fhir', 'log'] as const) {
      const file = await rig.actions.exportRecord(anna, format)
      expect(file?.text).toContain('MRN-A')
      expect(file?.text).not.toMatch(/Berta|MRN-B/)
    }
  })
})
