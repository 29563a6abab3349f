import { describe, expect, it } from 'vitest'
import { appRig } from '../support/appRig.ts'
import { browserOf } from '../support/browserOf.ts'
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

  it('waits on every page while one of them draws, which would come back as it was', async () => {
    const page = browserOf()
    const drawing = await page()
    const other = await page()
    await drawing.begin()
    await drawing.follow('tube')
    drawing.actions.changeSettings({ language: 'es' })
    await drawing.settle()
    await other.settle()
    await other.actions.go({ name: 'home' })
    expect([reloads(drawing), reloads(other)]).toEqual([0, 0])
  })

  it('chosen on another page takes no order from whoever is writing one', async () => {
    const page = browserOf()
    const [choosing, writing] = [await page(), await page()]
    await writing.plan()
    await writing.settle()
    choosing.actions.changeSettings({ language: 'es' })
    await choosing.settle()
    await writing.settle()
    expect([reloads(choosing), reloads(writing)]).toEqual([1, 0])
    await writing.actions.go({ name: 'home' })
    await writing.settle()
    expect(reloads(writing)).toBe(1)
  })

  it('for the patient is chosen on the plan, which stays with all that was decided', async () => {
    const rig = appRig()
    await rig.app.start()
    await rig.plan()
    const { plan, sittings } = rig.state()
    expect(plan).toBeDefined()
    rig.actions.editDraft({ patientLanguage: 'es' })
    expect(rig.state()).toMatchObject({ plan, sittings })
    await rig.actions.openDraw()
    expect(rig.state().draw?.patient.language).toBe('es')
  })

  it('of the screens is that of the patient where nobody chose one', async () => {
    const rig = appRig()
    await rig.app.start()
    await rig.plan()
    await rig.actions.openDraw()
    expect(rig.state().draw?.patient.language).toBe('en')
  })
})
