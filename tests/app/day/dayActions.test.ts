import { describe, expect, it } from 'vitest'
import { fileOf } from '../../../src/app/intake/chosenFile.ts'
import { appRig } from '../../support/appRig.ts'
import { twoPages } from '../../support/twoPages.ts'

const CSV = `familyName,givenNames,birthDate,recordNumber,orderNumber,tests
Invented,Bo,1971-02-03,MRN-B,O-2,cbc
`

describe('the day’s list', () => {
  it('takes the order of the form, and shows it', async () => {
    const rig = appRig()
    const { app, actions, state } = rig
    await app.start()
    await rig.plan()
    await actions.day.addDraft()
    expect(state().screen).toEqual({ name: 'home' })
    const [item] = state().day.items
    expect(item?.order).toMatchObject({
      patient: { fullName: 'Anna First' },
      order: { orderNumber: 'O-1', tests: ['cbc'] },
      from: 'hand',
    })
  })

  it('takes nothing from a form that cannot be read, and says what is missing', async () => {
    const { app, actions, state } = appRig()
    await app.start()
    actions.newDraw()
    await actions.day.addDraft()
    expect(state().day.items).toEqual([])
    expect(state().draftErrors.length).toBeGreaterThan(0)
  })

  it('takes orders of files, and tells of each that cannot be read why', async () => {
    const { app, actions, state } = appRig()
    await app.start()
    await actions.day.addFiles([fileOf('b.csv', CSV), fileOf('c.json', '{')])
    expect(state().day.items.map(({ order }) => order.patient.fullName)).toEqual(['Bo Invented'])
    expect(state().trouble).toMatch(/c\.json/)
  })

  it('is there for another page, which cancels an order with a name and a reason', async () => {
    const [mine, theirs] = twoPages()
    await mine.app.start()
    await mine.actions.day.addFiles([fileOf('b.csv', CSV)])
    await theirs.app.start()
    const [id = ''] = theirs.state().day.items.map(({ order }) => order.id)
    await theirs.actions.day.cancel([id], '', '')
    expect(theirs.state().trouble).toMatch(/who and why/)
    await theirs.actions.day.cancel([id], 'Dr. Placeholder', 'ordered twice')
    await mine.actions.go({ name: 'home' })
    expect(mine.state().day.items[0]).toMatchObject({ standing: 'cancelled', why: 'ordered twice' })
  })
})
