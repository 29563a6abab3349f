// @vitest-environment jsdom
import { act, cleanup, render, screen } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { createMemoryLogStore } from '../../src/adapters/storage/memory.ts'
import { createAppServices } from '../../src/app/appServices.ts'
import { App } from '../../src/ui/App.tsx'
import { fileOf } from '../../src/app/intake/chosenFile.ts'
import { appRig, type AppRig } from '../support/appRig.ts'
import { sampleLog, sampleOpening, SAMPLE_DRAW_ID, sha256 } from '../support/sampleLog.ts'

const drawId = SAMPLE_DRAW_ID
let rig: AppRig

/** A stored draw in which somebody has put another patient into the opening, hash left as it was. */
beforeEach(async () => {
  window.scrollTo = () => undefined
  const log = sampleLog()
  const { patient } = sampleOpening()
  const [opening, ...rest] = log.entries
  const forged = sampleOpening({ patient: { ...patient, fullName: 'Berta Second' } })
  const store = createMemoryLogStore(sha256)
  await store.append(drawId, [{ ...opening!, event: forged }, ...rest])
  rig = appRig({ logStore: store })
  await rig.app.start()
  const { store: state, actions } = rig.app
  render(
    <App port={{ store: state, actions, services: createAppServices(rig.deps, state, actions) }} />,
  )
})
afterEach(cleanup)

describe('a stored record whose chain is broken', () => {
  it('says so on top of the chart, with the first bad entry', async () => {
    await act(() => rig.actions.go({ name: 'chart', drawId }))
    const alert = screen.getByRole('alert').textContent
    expect(alert).toMatch(/damaged from entry 1 on/)
    expect(alert).toMatch(/changed after it was written/)
  })

  it('prints no label', async () => {
    await act(() => rig.actions.go({ name: 'labels', drawId, from: 'chart' }))
    expect(screen.getByRole('alert').textContent).toMatch(/no label is printed/)
    expect(screen.queryAllByRole('article')).toEqual([])
    expect(screen.queryByRole('button', { name: /Print/ })).toBeNull()
    expect(document.body.textContent).not.toContain('Berta')
  })

  it('says so in the note that is taken along, and makes no bundle', async () => {
    const note = await rig.actions.exportRecord(drawId, 'note')
    expect(note?.text).toMatch(/^The stored record of this draw is damaged from entry 1 on/)
    expect(await rig.actions.exportRecord(drawId, 'fhir')).toBeUndefined()
    expect(rig.state().trouble).toMatch(/damaged from entry 1/)
  })

  it('leaves as the log it is, which every reader finds broken', async () => {
    const file = await rig.actions.exportRecord(drawId, 'log')
    expect(file?.text).not.toContain('fault')
    const other = appRig()
    await other.app.start()
    await other.actions.importLog(fileOf('log.json', file?.text ?? ''))
    expect(other.state().trouble).toMatch(/refused/)
  })
})
