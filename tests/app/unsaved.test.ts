import { beforeEach, describe, expect, it } from 'vitest'
import { createMemoryLogStore } from '../../src/adapters/storage/memory.ts'
import { checkLog } from '../../src/core/log/checkLog.ts'
import { appRig, type AppRig } from '../support/appRig.ts'
import type { FakePage } from '../support/fakePage.ts'
import { troubledStore, type TroubledStore } from '../support/logStores.ts'
import { sha256 } from '../support/sampleLog.ts'

let store: TroubledStore
let rig: AppRig
const page = (): FakePage => rig.deps.page as FakePage
const texts = async (drawId: string): Promise<string[]> =>
  (await rig.stored(drawId)).entries.flatMap(({ event }) =>
    event.type === 'addendumMade' ? [event.text] : [],
  )

beforeEach(async () => {
  store = troubledStore(createMemoryLogStore(sha256))
  rig = appRig({ logStore: store })
  await rig.app.start()
})

describe('a draw that cannot be saved', () => {
  it('says so for as long as it lasts, and the browser asks before the page is closed', async () => {
    await rig.begin()
    expect(rig.state().unsaved).toBeUndefined()
    expect(page().isAsking()).toBe(false)
    store.trouble = 'full'
    await rig.touch('confirmPatient')
    expect(rig.state().unsaved).toMatchObject({ entries: 2 })
    expect(rig.state().unsaved?.text).toMatch(/^Not saved: 2 entries since 09:00\./)
    expect(rig.state().unsaved?.why).toMatch(/storage of this browser is full/)
    rig.actions.dismissTrouble()
    expect(rig.state().unsaved).toBeDefined()
    expect(page().isAsking()).toBe(true)
    store.trouble = undefined
    page().comeBack()
    await rig.settle()
    expect(rig.state().unsaved).toBeUndefined()
    expect(page().isAsking()).toBe(false)
  })

  it('is written after it was closed and left, whatever is begun meanwhile', async () => {
    const first = await rig.begin()
    store.trouble = 'full'
    await rig.close()
    await rig.actions.go({ name: 'home' })
    expect(rig.state().draws).toMatchObject([{ drawId: first, closed: true }])
    const second = await rig.begin({ fullName: 'Berta Second' })
    expect(second).not.toBe(first)
    await rig.actions.go({ name: 'home' })
    expect(
      rig
        .state()
        .draws.map(({ patientName }) => patientName)
        .sort(),
    ).toEqual(['Anna First', 'Berta Second'])
    store.trouble = undefined
    await rig.pass(11)
    expect((await rig.stored(first)).entries.at(-1)?.event.type).toBe('drawClosed')
    expect((await rig.stored(second)).entries[0]?.event.type).toBe('drawOpened')
    expect(rig.state().unsaved).toBeUndefined()
  })

  it('has its whole record on the chart and in the export', async () => {
    const drawId = await rig.begin()
    store.trouble = 'closed'
    await rig.close()
    await rig.actions.go({ name: 'chart', drawId })
    const shown = rig.state().records.get(drawId)
    expect(shown?.entries.at(-1)?.event.type).toBe('drawClosed')
    const file = await rig.actions.exportRecord(drawId, 'log')
    expect(file?.text).toContain('drawClosed')
  })

  it('never gives its number to another draw', async () => {
    store.reserveNumber = () => Promise.reject(new Error('The disk is full.'))
    store.trouble = 'full'
    let lot = 0
    rig = appRig({ logStore: store, drawLot: () => ++lot })
    await rig.app.start()
    const first = await rig.begin()
    await rig.close()
    const second = await rig.begin({ fullName: 'Berta Second' })
    expect(first).toMatch(/^KM47-20261125-\d{8}$/)
    expect(second).not.toBe(first)
  })
})

describe('addenda', () => {
  it('all stand in the record, also those made one after another and while nothing could be stored', async () => {
    const drawId = await rig.begin()
    await rig.close()
    const add = (text: string): Promise<void> => rig.actions.addAddendum(drawId, text, 'because')
    await rig.actions.go({ name: 'chart', drawId })
    await Promise.all([add('first'), add('second')])
    store.trouble = 'full'
    await add('third')
    await rig.actions.go({ name: 'home' })
    await rig.actions.go({ name: 'chart', drawId })
    await add('fourth')
    const onScreen = rig.state().records.get(drawId)?.entries ?? []
    expect(onScreen.filter(({ event }) => event.type === 'addendumMade')).toHaveLength(4)
    store.trouble = undefined
    await rig.pass(11)
    expect(await texts(drawId)).toEqual(['first', 'second', 'third', 'fourth'])
    expect(checkLog(await rig.stored(drawId), sha256)).toMatchObject({ ok: true })
  })
})
