import { describe, expect, it, vi } from 'vitest'
import { createMemoryDrawLocks } from '../../../src/adapters/lock/memoryDrawLocks.ts'
import { createMemoryLogStore } from '../../../src/adapters/storage/memory.ts'
import { readScenarios } from '../../../src/app/site/readScenarios.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { texts } from '../../../src/data/en/texts.ts'
import type { FakeSound } from '../../support/fakeSound.ts'
import { troubledStore } from '../../support/logStores.ts'
import { sha256 } from '../../support/sampleLog.ts'
import { scenarioFiles } from '../../support/scenarioSite.ts'
import { shippedSite } from '../../support/site.ts'
import { drawFirst, drawHere, sittingOf, startedRig } from '../../support/seriesRig.ts'
import { quiet, tablet } from '../../support/vaultRig.ts'

describe('two series and two pages', () => {
  it('never draws one patient’s sample for another', async () => {
    const rig = await startedRig()
    const anna = await drawFirst(rig)
    await rig.actions.tellMoment(anna, 'drinkFinished')
    const bert = await drawFirst(rig, {
      fullName: 'Bert Second',
      recordNumber: 'MRN-B',
      orderNumber: 'O-2',
    })
    await rig.actions.tellMoment(bert, 'drinkFinished')
    expect(rig.state().series).toHaveLength(2)
    rig.clock.advance(55 * 60_000)
    const drawn: string[] = []
    for (const id of [bert, anna]) {
      await rig.actions.openSitting(id, 'ogtt75/2')
      const drawId = drawHere(rig)
      await rig.follow('closed')
      await rig.settle()
      drawn.push(drawId)
      await rig.actions.go({ name: 'home' })
    }
    const labels = await Promise.all(drawn.map(async (id) => labelsFor(await rig.stored(id))))
    expect(labels.map(([label]) => [label?.recordNumber, label?.orderNumber])).toEqual([
      ['MRN-B', 'O-2'],
      ['MRN-A', 'O-1'],
    ])
    expect(new Set(labels.flat().map(({ specimenNumber }) => specimenNumber)).size).toBe(2)
  })

  it('opens one draw for one sitting, however often and from wherever it is asked for', async () => {
    const locks = createMemoryDrawLocks()
    const logStore = createMemoryLogStore(sha256)
    const left = await startedRig({ logStore, drawLock: locks() })
    const right = await startedRig({ logStore, drawLock: locks() }, left.clock)
    const id = await drawFirst(left)
    await left.actions.tellMoment(id, 'drinkFinished')
    right.actions.sayWhoDraws({ name: 'Bo Sample', initials: 'BS', siteName: '' })
    await right.actions.go({ name: 'home' })
    const double = left.actions.openSitting(id, 'ogtt75/2')
    await Promise.all([
      double,
      left.actions.openSitting(id, 'ogtt75/2'),
      right.actions.openSitting(id, 'ogtt75/2'),
    ])
    const draws = (await logStore.list()).filter(({ series }) => series === id)
    expect(draws).toHaveLength(2)
    await right.actions.openSitting(id, 'ogtt75/2')
    expect((await logStore.list()).filter(({ series }) => series === id)).toHaveLength(2)
    expect(right.state().trouble).toMatch(/begun already/)
  })

  it('opens one draw for one sitting in a browser without locks as well', async () => {
    const logStore = createMemoryLogStore(sha256)
    // Each page has a lock of its own, as where the browser has none to share.
    const left = await startedRig({ logStore, drawLock: createMemoryDrawLocks()() })
    const right = await startedRig(
      { logStore, drawLock: createMemoryDrawLocks()(), drawLot: () => 2 },
      left.clock,
    )
    const id = await drawFirst(left)
    await left.actions.tellMoment(id, 'drinkFinished')
    right.actions.sayWhoDraws({ name: 'Bo Sample', initials: 'BS', siteName: '' })
    await right.actions.go({ name: 'home' })
    await Promise.all([
      left.actions.openSitting(id, 'ogtt75/2'),
      right.actions.openSitting(id, 'ogtt75/2'),
    ])
    expect((await logStore.list()).filter(({ series }) => series === id)).toHaveLength(2)
    // Whichever comes second is told so: that it is just being begun, or that it was.
    const troubles = [left.state().trouble, right.state().trouble].filter((text) => text)
    expect(troubles).toEqual([expect.stringMatching(/just beginning|begun already/)])
  })

  it('finds everything again after a reload', async () => {
    const logStore = createMemoryLogStore(sha256)
    const before = await startedRig({ logStore })
    const id = await drawFirst(before)
    await before.actions.tellMoment(id, 'drinkFinished')
    const due_ms = sittingOf(before, id, 'ogtt75/2')?.due_ms
    const after = await startedRig({ logStore }, before.clock)
    expect(sittingOf(after, id, 'ogtt75/2')?.due_ms).toBe(due_ms)
  })

  it('keeps the first record as long as samples are to be drawn', async () => {
    const rig = await startedRig()
    const id = await drawFirst(rig)
    await rig.actions.eraseRecord(id)
    expect(rig.state().trouble).toBe(texts.screens.series.keepFirst)
    expect(await rig.deps.logStore.load(id)).toBeDefined()
    await rig.actions.leaveOutSittings(id, ['ogtt75/2', 'ogtt75/3'], 'went home')
    await rig.actions.eraseRecord(id)
    expect(await rig.deps.logStore.load(id)).toBeUndefined()
  })

  it('says in the next record that the clock was set between two samples', async () => {
    const rig = await startedRig()
    const id = await drawFirst(rig)
    await rig.actions.tellMoment(id, 'drinkFinished')
    await rig.pass(3)
    rig.clock.setWall(20 * 60_000)
    await rig.pass(3)
    expect(rig.state().seriesClockStep_ms).toBeGreaterThan(19 * 60_000)
    await rig.actions.openSitting(id, 'ogtt75/2')
    await rig.settle()
    const notes = (await rig.stored(drawHere(rig))).entries.flatMap(({ event }) =>
      event.type === 'noteAdded' ? [event.text] : [],
    )
    expect(notes).toEqual([expect.stringContaining('set by 20 min')])
  })
})

describe('a series and what goes wrong', () => {
  it('keeps no name while the records are locked, calls out all the same, and is there again after', async () => {
    const device = tablet()
    const rig = await device.page()
    await rig.actions.setPin('482913')
    await quiet()
    rig.actions.keptRecovery()
    const id = await drawFirst(rig)
    await quiet()
    await rig.actions.go({ name: 'home' })
    await rig.actions.tellMoment(id, 'drinkFinished')
    expect(sittingOf(rig, id, 'ogtt75/2')?.due_ms).toBeDefined()
    rig.actions.lockNow()
    expect(rig.state().series).toEqual([])
    expect(JSON.stringify({ ...rig.state(), settings: {} })).not.toContain('Anna')
    expect(rig.state().dues_ms).toHaveLength(2)
    const { chimes } = rig.deps.sound as FakeSound
    const before = chimes.length
    rig.clock.advance(61 * 60_000)
    await rig.pass(3)
    expect(chimes.slice(before)).toContain('timeUp')
    expect(rig.state().series).toEqual([])
    await rig.actions.unlock('482913')
    await vi.waitFor(() => expect(sittingOf(rig, id, 'ogtt75/2')?.due_ms).toBeDefined())
  })

  it('goes on where nothing can be stored, and draws no sitting twice on that page', async () => {
    const store = troubledStore(createMemoryLogStore(sha256))
    const rig = await startedRig({ logStore: store })
    const id = await drawFirst(rig)
    store.trouble = 'full'
    await rig.actions.tellMoment(id, 'drinkFinished')
    await rig.actions.go({ name: 'home' })
    expect(sittingOf(rig, id, 'ogtt75/2')?.due_ms).toBeDefined()
    await rig.actions.openSitting(id, 'ogtt75/2')
    const second = drawHere(rig)
    expect(rig.state().unsaved).toBeDefined()
    await rig.follow('closed')
    await rig.settle()
    await rig.actions.go({ name: 'home' })
    expect(sittingOf(rig, id, 'ogtt75/2')).toMatchObject({ state: 'done', drawId: second })
    await rig.actions.openSitting(id, 'ogtt75/2')
    expect(rig.state().trouble).toBe('1 h was drawn already.')
    store.trouble = undefined
    await rig.pass(11)
    expect((await rig.stored(second)).entries.at(-1)?.event.type).toBe('drawClosed')
  })

  it('of a rehearsal waits for nobody afterwards', async () => {
    const { name, text } = scenarioFiles().find((file) => file.name === 'timed-series')!
    const [scenario] = readScenarios({ [`./${name}.txt`]: text }, shippedSite)
    const rig = await startedRig({ scenarios: [scenario!] })
    await rig.actions.startPractice(scenario!.id)
    await rig.follow('closed')
    await rig.settle()
    await rig.actions.go({ name: 'home' })
    expect(rig.state().series).toEqual([])
  })

  it('goes back to its draw, by taking it over, when another page was left in it', async () => {
    const locks = createMemoryDrawLocks()
    const logStore = createMemoryLogStore(sha256)
    const left = await startedRig({ logStore, drawLock: locks() })
    const right = await startedRig({ logStore, drawLock: locks() }, left.clock)
    const id = await drawFirst(left)
    await left.actions.tellMoment(id, 'drinkFinished')
    await left.actions.openSitting(id, 'ogtt75/2')
    const second = drawHere(left)
    await right.actions.go({ name: 'home' })
    expect(sittingOf(right, id, 'ogtt75/2')).toMatchObject({ state: 'open', drawId: second })
    await right.actions.go({ name: 'draw', drawId: second })
    expect(right.state().draw?.elsewhere).toBeDefined()
    await right.actions.takeOver()
    await right.follow('closed')
    await right.settle()
    await right.actions.go({ name: 'home' })
    expect(sittingOf(right, id, 'ogtt75/2')).toMatchObject({ state: 'done', drawId: second })
  })
})
