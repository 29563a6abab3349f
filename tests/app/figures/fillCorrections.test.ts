import { describe, expect, it } from 'vitest'
import { createMemorySettingsStore } from '../../../src/adapters/storage/memory.ts'
import { readOwnSite } from '../../../src/app/site/ownSite.ts'
import { setKey } from '../../../src/core/flow/setKey.ts'
import { openingOf } from '../../../src/core/record/openingOf.ts'
import { appRig } from '../../support/appRig.ts'
import { SAMPLE_START_ms } from '../../support/sampleLog.ts'
import { shippedSite } from '../../support/site.ts'

const set = setKey(shippedSite.demo.needleSet)
const accepted = { set, factor: 1.2, by: 'R. Example', tubes: 40 }

describe('a correction that somebody accepted', () => {
  it('is kept with who and when, and is in use from the next start on', async () => {
    const settingsStore = createMemorySettingsStore()
    const rig = appRig({ settingsStore })
    await rig.app.start()
    await rig.actions.figures.correctFill(accepted)
    const { value, faults } = await readOwnSite(shippedSite, settingsStore)
    expect(faults).toEqual([])
    expect(value.fillCorrections).toEqual([{ ...accepted, at_ms: SAMPLE_START_ms }])
  })

  it('takes the place of the one before for that set, and can be taken back', async () => {
    const settingsStore = createMemorySettingsStore()
    const rig = appRig({ settingsStore })
    await rig.app.start()
    const other = 'straight 21 regular 32 0 0'
    await rig.actions.figures.correctFill(accepted)
    await rig.actions.figures.correctFill({ ...accepted, set: other })
    await rig.actions.figures.correctFill({ ...accepted, factor: 1.4 })
    const kept = async () => (await readOwnSite(shippedSite, settingsStore)).value.fillCorrections
    expect((await kept()).map((each) => [each.set, each.factor])).toEqual([
      [other, 1.2],
      [set, 1.4],
    ])
    await rig.actions.figures.uncorrectFill(set)
    expect((await kept()).map((each) => each.set)).toEqual([other])
  })

  it('stands in the opening of every draw from then on, and in none without it', async () => {
    const fillCorrections = [{ ...accepted, at_ms: 1 }]
    const rig = appRig({ site: { ...shippedSite, fillCorrections } })
    await rig.app.start()
    const drawId = await rig.begin()
    expect(openingOf(await rig.stored(drawId)).fillCorrections).toEqual(fillCorrections)
    const plain = appRig()
    await plain.app.start()
    const other = await plain.begin()
    expect(openingOf(await plain.stored(other)).fillCorrections).toBeUndefined()
  })

  it.each([
    '{',
    '{}',
    '[{"set":"winged 21 thin 19 305 1","factor":99,"by":"x","at_ms":0,"tubes":1}]',
    '[{"set":"=1","factor":1.1,"by":"x","at_ms":0,"tubes":1}]',
    '[{"set":"winged 21 thin 19 305 1","factor":1.1,"by":"","at_ms":0,"tubes":1}]',
  ])('that does not read (%s) is none, and a person is told', async (json) => {
    const settingsStore = createMemorySettingsStore()
    await settingsStore.write('fillCorrections', json)
    const { value, faults } = await readOwnSite(shippedSite, settingsStore)
    expect(value.fillCorrections).toEqual([])
    expect(faults).toEqual([shippedSite.texts.site.kept.fillCorrections])
  })
})
