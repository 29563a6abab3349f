// @vitest-environment jsdom
import { cleanup, render, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { afterEach, describe, expect, it } from 'vitest'
import {
  createMemoryLogStore,
  createMemorySettingsStore,
} from '../../src/adapters/storage/memory.ts'
import { App } from '../../src/ui/App.tsx'
import { appRig } from '../support/appRig.ts'
import { SERVICES } from '../support/fakeServices.ts'
import { SAMPLE_START_ms, sha256 } from '../support/sampleLog.ts'
import { createSimulatedClock } from '../../src/adapters/time/simulatedClock.ts'
import { texts } from '../../src/data/en/texts.ts'

afterEach(cleanup)

const DAY_ms = 86_400_000

/** The clock of a page that is opened so long after the first. */
const clockAfter = (ms: number) =>
  createSimulatedClock({ boot: 'b', mono_ms: 0, wall_ms: SAMPLE_START_ms + ms, offset_min: 60 })

const region = (name: string) => within(screen.getByRole('region', { name }))

describe('the list of draws', () => {
  it('tells outcome, record number and tubes of each, and finds by name, number and outcome', async () => {
    const rig = appRig()
    await rig.app.start()
    const anna = await rig.begin()
    await rig.follow('closed')
    rig.clock.advance(60_000)
    const berta = await rig.begin({ fullName: 'Berta Second', recordNumber: 'MRN-B' })
    await rig.close()
    await rig.actions.go({ name: 'home' })
    render(<App port={{ store: rig.app.store, actions: rig.actions, services: SERVICES }} />)
    const list = region('Earlier draws')
    const user = userEvent.setup()
    const rows = () => list.queryAllByRole('listitem').map((row) => row.textContent)
    const { outcomes } = texts.pictures.strip

    await list.findByText(outcomes.notDrawn)
    expect(rows()[0]).toContain(outcomes.notDrawn)
    expect(rows()[0]).toContain('0 tubes')
    expect(rows()[1]).toContain('1 tube')
    // Whoever sits before the screen reads neither name nor number.
    expect(rows().join()).not.toMatch(/Anna|Berta|MRN/)
    await user.click(list.getByRole('button', { name: 'Show names' }))
    expect(rows()[0]).toMatch(/Berta Second.*MRN-B/)

    const find = list.getByLabelText('Find by name or number')
    for (const typed of ['mrn-a', 'first', anna]) {
      await user.clear(find)
      await user.type(find, typed)
      expect(rows(), typed).toHaveLength(1)
      expect(rows()[0]).toContain('Anna First')
    }
    await user.clear(find)
    await user.selectOptions(list.getByLabelText('Outcome'), outcomes.notDrawn)
    expect(rows()).toHaveLength(1)
    expect(rows()[0]).toContain('Berta Second')
    await user.type(find, 'anna')
    expect(rows()).toEqual([])
    expect(list.getByText('No draw fits.')).toBeTruthy()
    expect(berta).not.toBe(anna)
  })

  it('keeps practice apart from patients', async () => {
    const rig = appRig()
    await rig.app.start()
    await rig.begin()
    await rig.close()
    rig.actions.startDemo()
    rig.actions.makePlan()
    await rig.actions.openDraw()
    await rig.close()
    await rig.actions.go({ name: 'home' })
    render(<App port={{ store: rig.app.store, actions: rig.actions, services: SERVICES }} />)
    expect(region('Earlier draws').getAllByRole('listitem')).toHaveLength(1)
    const practice = region('Earlier practice').getAllByRole('listitem')
    expect(practice).toHaveLength(1)
    expect(practice[0]?.textContent).toContain('Invented')
  })
})

/** One draw of a patient and one rehearsal, both begun and left, in a store that outlives the page. */
async function leftOpen() {
  const stores = {
    logStore: createMemoryLogStore(sha256),
    settingsStore: createMemorySettingsStore(),
  }
  const first = appRig(stores)
  await first.app.start()
  const real = await first.begin()
  await first.touch('confirmPatient')
  first.actions.startDemo()
  first.actions.makePlan()
  await first.actions.openDraw()
  await first.settle()
  const { draws } = first.state()
  const practice = draws.find(({ drawId }) => drawId !== real)?.drawId ?? ''
  return { stores, real, practice }
}

describe('a draw that nobody comes back to', () => {
  it('is dropped after a day if it was practice, and never if it is a patient', async () => {
    const { stores, real, practice } = await leftOpen()
    const next = appRig(stores, clockAfter(DAY_ms + 60_000))
    await next.app.start()
    expect(next.state().draws.map(({ drawId }) => drawId)).toEqual([real])
    expect(await stores.logStore.load(practice)).toBeUndefined()
    const later = appRig(stores, clockAfter(400 * DAY_ms))
    await later.app.start()
    expect(later.state().draws.map(({ drawId }) => drawId)).toEqual([real])
    expect((await stores.logStore.load(real))?.entries.length).toBeGreaterThan(1)
  })

  it('stays for the day, and while somebody rehearses on it elsewhere', async () => {
    const { stores, practice } = await leftOpen()
    const other = appRig(stores, clockAfter(DAY_ms - 3_600_000))
    await other.app.start()
    expect(other.state().draws).toHaveLength(2)
    await other.actions.go({ name: 'draw', drawId: practice })
    await other.touch('confirmPatient')
    await other.settle()
    const third = appRig(stores, clockAfter(DAY_ms + 3_600_000))
    await third.app.start()
    expect(third.state().draws.map(({ drawId }) => drawId)).toContain(practice)
  })
})
