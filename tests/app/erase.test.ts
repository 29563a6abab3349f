import { beforeEach, describe, expect, it } from 'vitest'
import { createMemoryLogStore } from '../../src/adapters/storage/memory.ts'
import { appRig, type AppRig } from '../support/appRig.ts'
import type { FakePage } from '../support/fakePage.ts'
import { troubledStore, type TroubledStore } from '../support/logStores.ts'
import { texts } from '../support/lockTexts.ts'
import {
  logOf,
  sampleOpening,
  SAMPLE_START_ms,
  sha256,
  straightLines,
} from '../support/sampleLog.ts'

const DAY_ms = 86_400_000
let store: TroubledStore
let rig: AppRig
const ids = async (): Promise<string[]> => (await store.list()).map(({ drawId }) => drawId)

beforeEach(async () => {
  store = troubledStore(createMemoryLogStore(sha256))
  for (const [days, n] of [
    [40, 1],
    [31, 2],
    [30, 3],
    [1, 4],
  ] as const) {
    const drawId = `KM47-20261001-000${n}`
    const lines = straightLines(sampleOpening({ drawId }))
    await store.append(drawId, logOf(lines, SAMPLE_START_ms - days * DAY_ms).entries)
  }
  rig = appRig({ logStore: store })
  await rig.app.start()
  rig.actions.changeSettings({ retention_days: 30 })
})

describe('erasing', () => {
  it('takes what is older than the days that are set, and nothing else', async () => {
    expect(await rig.actions.eraseOld()).toBe(2)
    expect(await ids()).toEqual(['KM47-20261001-0004', 'KM47-20261001-0003'])
    expect(rig.state().draws).toHaveLength(2)
  })

  it('takes nothing while no days are set', async () => {
    rig.actions.changeSettings({ retention_days: 0 })
    expect(await rig.actions.eraseOld()).toBe(0)
    expect(await ids()).toHaveLength(4)
  })

  it('offers a signed log of each that would go', async () => {
    await rig.actions.saveOld()
    const { saved } = rig.deps.page as FakePage
    expect(saved.map(({ name }) => name).sort()).toEqual([
      'KM47-20261001-0001.log.json',
      'KM47-20261001-0002.log.json',
    ])
    expect(saved[0]?.text).toContain('signature')
  })

  it('takes one record, and what was on the screen of it', async () => {
    const drawId = 'KM47-20261001-0004'
    await rig.actions.go({ name: 'chart', drawId })
    await rig.actions.eraseRecord(drawId)
    expect(rig.state().screen).toEqual({ name: 'home' })
    expect(rig.state().records.has(drawId)).toBe(false)
    expect(await ids()).not.toContain(drawId)
    await rig.actions.go({ name: 'chart', drawId })
    expect(rig.state().screen).toEqual({ name: 'home' })
  })

  it('never takes a draw that runs, or one that is not saved yet', async () => {
    const running = await rig.begin()
    await rig.actions.eraseRecord(running)
    expect(rig.state().trouble).toBe(texts.told.notWhileOpen)
    store.trouble = 'full'
    await rig.close()
    await rig.actions.eraseRecord(running)
    expect(rig.state().draws.map(({ drawId }) => drawId)).toContain(running)
    store.trouble = undefined
    await rig.pass(11)
    await rig.actions.eraseRecord(running)
    expect(await ids()).not.toContain(running)
  })

  it('does not free the number', async () => {
    const first = await rig.begin()
    await rig.close()
    await rig.actions.eraseRecord(first)
    expect(await rig.begin()).not.toBe(first)
  })
})
