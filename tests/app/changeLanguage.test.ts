import { describe, expect, it } from 'vitest'
import { appRig } from '../support/appRig.ts'
import type { FakePage } from '../support/fakePage.ts'

const reloads = (rig: ReturnType<typeof appRig>): number =>
  (rig.deps.page as FakePage).done.filter((what) => what === 'startAnew').length

describe('another language', () => {
  it('comes into use at once between draws', async () => {
    const rig = appRig()
    await rig.app.start()
    rig.actions.changeSettings({ language: 'es' })
    await rig.settle()
    expect(reloads(rig)).toBe(1)
  })

  it('needs no new page where it is the one in use', async () => {
    const rig = appRig()
    await rig.app.start()
    rig.actions.changeSettings({ language: 'en' })
    await rig.settle()
    expect(reloads(rig)).toBe(0)
  })

  it('waits while a draw is under way, which says in which language the patient is told', async () => {
    const rig = appRig()
    await rig.app.start()
    await rig.plan({ patientLanguage: 'es' })
    await rig.actions.openDraw()
    rig.actions.changeSettings({ language: 'es' })
    await rig.settle()
    await rig.actions.go({ name: 'home' })
    expect(reloads(rig)).toBe(0)
    expect(rig.state().draw?.patient.language).toBe('es')
    await rig.close()
    await rig.actions.go({ name: 'home' })
    expect(reloads(rig)).toBe(1)
  })

  it('of the screens is that of the patient where nobody chose one', async () => {
    const rig = appRig()
    await rig.app.start()
    await rig.plan()
    await rig.actions.openDraw()
    expect(rig.state().draw?.patient.language).toBe('en')
  })
})
