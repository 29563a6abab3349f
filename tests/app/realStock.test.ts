import { expect, it } from 'vitest'
import { keptCatalogue } from '../../src/app/site/catalogue/keptCatalogue.ts'
import { catalogueJson } from '../../src/app/site/catalogue/writeCatalogue.ts'
import { planDraw } from '../../src/core/plan/planDraw.ts'
import { writeNote } from '../../src/core/record/note.ts'
import { appRig } from '../support/appRig.ts'
import { noteTemplate } from '../support/noteTemplate.ts'
import { planInput } from '../support/planning.ts'
import { sampleLog } from '../support/sampleLog.ts'
import { shippedSite } from '../support/site.ts'

const LOT = { tubeCode: 'edta4', lot: 'OWN-1', expires: '2028-01-31', count: 2 }
const lots = (rig: ReturnType<typeof appRig>) => rig.state().plan?.tubes.map(({ lot }) => lot)

it('a draw of a patient without a counted stock is planned without lots; a demonstration has invented ones', async () => {
  const rig = appRig()
  await rig.app.start()
  await rig.plan()
  expect(rig.state().plan?.problems).toEqual([])
  expect(lots(rig)).toEqual([undefined])
  rig.actions.startDemo()
  rig.actions.makePlan()
  for (const lot of lots(rig) ?? []) expect(lot).toMatch(/^INVENTED-/)
})

it('what the site counted is planned from and counted down at the close; what is gone is said', async () => {
  const rig = appRig()
  await rig.app.start()
  const code = (await rig.plan(), rig.state().plan?.tubes[0]?.tubeCode ?? '')
  await rig.actions.keepStock([{ ...LOT, tubeCode: code, count: 1 }])
  const id = await rig.begin()
  await rig.follow('closed')
  await rig.settle()
  expect((await rig.stored(id)).entries.at(-1)?.event.type).toBe('drawClosed')
  expect(rig.state().stock).toEqual([{ ...LOT, tubeCode: code, count: 0 }])
  await rig.plan()
  expect(rig.state().plan?.uncovered).toHaveLength(1)
})

it('a catalog without a shipped tube, or with one under another code, still plans', () => {
  const { catalogue } = shippedSite
  const tubes = catalogue.tubes.flatMap((tube, index) =>
    index === 0 ? [] : [index === 1 ? { ...tube, code: 'renamed' } : tube],
  )
  const kept = keptCatalogue(shippedSite, catalogueJson({ ...catalogue, tubes }))
  expect(kept.faults).toEqual([])
  const { value: site } = kept
  for (const stock of [undefined, site.stock]) {
    const plan = planDraw({ ...planInput(['cbc']), catalogue: site.catalogue, stock })
    expect(plan.problems).toEqual([])
    expect(plan.tubes.length).toBeGreaterThan(0)
  }
})

it('the note tells a lot that nobody read as the one that was planned', () => {
  const { text } = writeNote(sampleLog(), noteTemplate)
  expect(text).toContain('planned lot LOT-t1 (not scanned)')
  expect(text).not.toMatch(/(?<!planned )lot LOT-/)
  const plan = sampleLog().entries[0]?.event
  if (plan?.type !== 'drawOpened') throw new Error('no opening')
  const tubes = plan.plan.tubes.map(({ lot: _lot, expires: _e, ...tube }) => tube)
  const bare = sampleLog({ opening: { plan: { ...plan.plan, tubes } } })
  expect(writeNote(bare, noteTemplate).text).toContain('lot not known')
})
