import { beforeEach, describe, expect, it } from 'vitest'
import { createMemoryLogStore } from '../../src/adapters/storage/memory.ts'
import { createKeysSpeech } from '../../src/adapters/speech/keysSpeech.ts'
import { readScenarios } from '../../src/app/site/readScenarios.ts'
import { StorageError } from '../../src/ports/storageFault.ts'
import type { LogStore } from '../../src/ports/logStore.ts'
import storage from '../../src/data/en/storage.json' with { type: 'json' }
import { appRig, type AppRig } from '../support/appRig.ts'
import { sha256 } from '../support/sampleLog.ts'
import { scenarioFiles } from '../support/scenarioSite.ts'
import { shippedSite } from '../support/site.ts'

let store: LogStore
let rig: AppRig
let ears: number

const straight = scenarioFiles().filter(({ name }) => name === 'straight-draw')
const scenarios = readScenarios(
  Object.fromEntries(straight.map(({ name, text }) => [`${name}.txt`, text])),
  shippedSite,
)
const stored = async (): Promise<string[]> => (await store.list()).map(({ drawId }) => drawId)
/** Twice in one moment, as a finger that bounces or a key that is held does. */
const twice = (press: () => Promise<void>): Promise<unknown> => Promise.all([press(), press()])

beforeEach(async () => {
  store = createMemoryLogStore(sha256)
  ears = 0
  rig = appRig({
    logStore: store,
    scenarios,
    makeSpeech: () => {
      ears++
      return createKeysSpeech()
    },
  })
  await rig.app.start()
})

describe('a second press', () => {
  it('of "Start the draw" begins no second draw, and everything that follows is stored', async () => {
    await rig.plan()
    await twice(() => rig.actions.openDraw())
    const ids = await stored()
    expect(ids).toHaveLength(1)
    expect(ears).toBe(1)
    await rig.follow('closed')
    expect((await rig.stored(ids[0] ?? '')).entries.at(-1)?.event.type).toBe('drawClosed')
  })

  it('of "Start the draw" after it was begun opens no ghost of it', async () => {
    await rig.plan()
    await rig.actions.openDraw()
    await rig.actions.openDraw()
    expect(await stored()).toHaveLength(1)
  })

  it('of "Go on" goes on once', async () => {
    const drawId = await rig.begin()
    await rig.follow('supplies')
    rig = appRig({ logStore: store, makeSpeech: () => (ears++, createKeysSpeech()) })
    await rig.app.start()
    ears = 0
    await twice(() => rig.actions.go({ name: 'draw', drawId }))
    expect(ears).toBe(1)
    expect(rig.state().screen).toEqual({ name: 'draw', drawId })
    await rig.follow('closed')
    const { entries } = await rig.stored(drawId)
    expect(entries.filter(({ event }) => event.type === 'awayNoticed')).toHaveLength(1)
    expect(entries.at(-1)?.event.type).toBe('drawClosed')
  })

  it('of a rehearsal begins it once', async () => {
    await twice(() => rig.actions.startPractice('straight-draw'))
    expect(await stored()).toHaveLength(1)
    expect(rig.state().draw?.coach?.act).toBe('Say "patient confirmed"')
  })

  it('of the main choice confirms one step', async () => {
    await rig.begin()
    expect(rig.state().draw?.step.id).toBe('identity')
    await twice(() => rig.touch('confirmPatient'))
    expect(rig.state().draw?.step.id).toBe('consent')
  })
})

describe('a screen that is asked for', () => {
  it('is not shown when its draw is not there, and that is said', async () => {
    for (const name of ['draw', 'chart'] as const) {
      rig.actions.dismissTrouble()
      await rig.actions.go({ name, drawId: 'KM47-20261125-0099' })
      expect(rig.state().screen).toEqual({ name: 'home' })
      expect(rig.state().trouble).toBe('Draw KM47-20261125-0099 is not stored on this device.')
    }
  })

  it('is not shown when the storage fails, and that is said, not that the draw is missing', async () => {
    const drawId = await rig.begin()
    await rig.close()
    await rig.actions.go({ name: 'home' })
    store.load = () => Promise.reject(new StorageError('closed', 'as the test asked'))
    for (const name of ['draw', 'chart'] as const) {
      rig.actions.dismissTrouble()
      await rig.actions.go({ name, drawId })
      expect(rig.state().screen).toEqual({ name: 'home' })
      expect(rig.state().trouble).toBe(`The draw cannot be read. ${storage.faults.closed}`)
    }
  })

  it('gives way to one that was asked for after it', async () => {
    const drawId = await rig.begin()
    await rig.close()
    const load = store.load.bind(store)
    let release = (): void => undefined
    store.load = async (id) => {
      await new Promise<void>((done) => (release = done))
      return load(id)
    }
    const slow = rig.actions.go({ name: 'chart', drawId })
    await rig.settle()
    await rig.actions.go({ name: 'settings' })
    release()
    await slow
    expect(rig.state().screen).toEqual({ name: 'settings' })
  })

  it('of another draw leaves nothing of the first on the page', async () => {
    const first = await rig.begin()
    await rig.close()
    const second = await rig.begin({ fullName: 'Berta Second' })
    await rig.actions.go({ name: 'draw', drawId: first })
    expect(rig.state().draw?.patientLine).toContain('Anna First')
    await rig.actions.go({ name: 'draw', drawId: second })
    expect(rig.state().draw?.patientLine).toContain('Berta Second')
  })
})

describe('what a device keeps', () => {
  it('is told when it cannot be kept', async () => {
    const refuse = (): Promise<never> => Promise.reject(new StorageError('full', 'as asked'))
    rig.deps.settingsStore.write = refuse
    rig.actions.changeSettings({ volume: 0.2 })
    await rig.settle()
    expect(rig.state().trouble).toBe(`The settings cannot be saved. ${storage.faults.full}`)
    await rig.actions.keepCatalogue('{}')
    expect(rig.state().trouble).toBe(`This cannot be kept. ${storage.faults.full}`)
  })

  it('of its own begins the app anew once it is kept', async () => {
    await rig.actions.keepPolicy('{"limits":{}}')
    expect(await rig.deps.settingsStore.read('policy')).toBe('{"limits":{}}')
    expect(rig.deps.page).toMatchObject({ done: ['startAnew'] })
  })
})
