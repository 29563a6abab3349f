import { expect, it } from 'vitest'
import { createMemoryLogStore } from '../../../src/adapters/storage/memory.ts'
import { appRig, type AppRig } from '../../support/appRig.ts'
import { sha256 } from '../../support/sampleLog.ts'

const scan = async (rig: AppRig, text: string): Promise<void> => {
  await rig.actions.command({ type: 'scanLabel', text }, 'scanner')
  await rig.settle()
}

/** A draw at its labels, at a site that uses the laboratory's own. */
async function atLabels(rig: AppRig, fullName: string): Promise<string> {
  rig.actions.changeSettings({ labelsBy: 'laboratory' })
  const drawId = await rig.begin({ fullName })
  await rig.follow('labels')
  return drawId
}

const taken = async (rig: AppRig, drawId: string): Promise<readonly string[]> =>
  (await rig.stored(drawId)).entries.flatMap(({ event }) =>
    event.type === 'accessionTaken' ? [event.accession] : [],
  )

it('asks when a label of the patient before is put on a tube of the next', async () => {
  const rig = appRig()
  await rig.app.start()
  const anna = await atLabels(rig, 'Anna First')
  await scan(rig, 'LAB-1')
  expect(await taken(rig, anna)).toEqual(['LAB-1'])
  await rig.follow('closed')
  const berta = await atLabels(rig, 'Berta Second')
  await scan(rig, 'lab-1')
  expect(rig.state().draw?.ask?.question).toMatch(/another draw/)
  expect(await taken(rig, berta)).toEqual([])
  await rig.touch('confirmNo')
  await rig.settle()
  await scan(rig, 'LAB-2')
  expect(await taken(rig, berta)).toEqual(['LAB-2'])
})

it('holds no label up while the disk does not answer', async () => {
  const store = createMemoryLogStore(sha256)
  const logStore = { ...store }
  const rig = appRig({ logStore })
  await rig.app.start()
  await atLabels(rig, 'Anna First')
  await scan(rig, 'LAB-1')
  await rig.follow('closed')
  const berta = await atLabels(rig, 'Berta Second')
  logStore.load = () => new Promise(() => undefined)
  const scanned = rig.actions.command({ type: 'scanLabel', text: 'LAB-1' }, 'scanner')
  await rig.pass(2)
  await scanned
  logStore.load = (drawId) => store.load(drawId)
  expect(await taken(rig, berta)).toEqual(['LAB-1'])
})
