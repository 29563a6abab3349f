import { beforeEach, describe, expect, it } from 'vitest'
import { createMemoryLogStore } from '../../src/adapters/storage/memory.ts'
import {
  createScriptedSpeech,
  type ScriptedSpeech,
} from '../../src/adapters/speech/scriptedSpeech.ts'
import type { SimulatedClock } from '../../src/adapters/time/simulatedClock.ts'
import { laterActs } from '../../src/app/view/laterActs.ts'
import { checkLog } from '../../src/core/log/checkLog.ts'
import { appRig, type AppRig } from '../support/appRig.ts'
import type { FakeSound } from '../support/fakeSound.ts'
import { sha256 } from '../support/sampleLog.ts'
import { shippedSite } from '../support/site.ts'

let rig: AppRig
let speech: ScriptedSpeech[]
const sound = (): FakeSound => rig.deps.sound as FakeSound
const clock = (): SimulatedClock => rig.clock

/** Says it to every recognizer the app ever made: one that was let go of must not hear it. */
async function say(phrase: string): Promise<void> {
  for (const each of speech) {
    each.partial(phrase, { level_dB: 20, quiet_ms: 400 })
    each.final(phrase, { level_dB: 20 })
  }
  await rig.pass(3)
}
const types = async (drawId: string): Promise<string[]> =>
  (await rig.stored(drawId)).entries.map(({ event }) => event.type)
const isListening = (): boolean => rig.state().draw?.listening.state.kind === 'listening'

beforeEach(async () => {
  speech = []
  rig = appRig({
    makeSpeech: () => {
      const made = createScriptedSpeech(() => rig.clock.read().mono_ms)
      speech.push(made)
      return made
    },
  })
  await rig.app.start()
})

describe('a draw that is closed', () => {
  it('hears nothing more, not on its own screen and not over the form of the next patient', async () => {
    const anna = await rig.begin()
    await rig.follow('preparation')
    const before = await types(anna)
    await say('answers checked')
    // It did hear as long as it was open.
    expect(await types(anna)).toEqual([...before, 'preparationChecked'])
    await rig.follow('closed')
    const closed = await types(anna)
    expect(closed.at(-1)).toBe('drawClosed')
    await say('feeling faint')
    await rig.actions.go({ name: 'home' })
    rig.actions.newDraw()
    await say('stuck myself')
    await say('stop everything')
    expect(await types(anna)).toEqual(closed)
    expect(speech).toHaveLength(1)
  })

  it('is not written into by a night of the machine, a changed clock or a cue', async () => {
    const anna = await rig.begin()
    await rig.follow('closed')
    const closed = await types(anna)
    await rig.pass(5)
    clock().setWall(8 * 3_600_000)
    await rig.pass(5)
    clock().setWall(-3_600_000)
    await rig.pass(5)
    expect(sound().chimes.filter((chime) => chime === 'timeUp')).toEqual([])
    expect(await types(anna)).toEqual(closed)
  })

  it('shows its clocks on its own screen, and on no other', async () => {
    const anna = await rig.begin()
    await rig.follow('closed')
    await rig.pass(2)
    const first = rig.state().draw
    expect(first).toMatchObject({ drawId: anna, closed: { outcome: 'complete' } })
    await rig.pass(2)
    expect(rig.state().draw).not.toBe(first)
    await rig.actions.go({ name: 'home' })
    const left = rig.state().draw
    await rig.pass(2)
    expect(rig.state().draw).toBe(left)
  })
})

describe('a draw that is left while it is open', () => {
  it('lets the microphone go, keeps its alarms, and hears again when it is come back to', async () => {
    const anna = await rig.begin()
    await rig.follow('needle')
    await rig.actions.go({ name: 'home' })
    await rig.pass(1)
    expect(isListening()).toBe(false)
    sound().chimes.length = 0
    const before = await types(anna)
    await say('needle in')
    expect(await types(anna)).not.toContain('needleIn')
    await rig.pass(62)
    expect(sound().chimes).toContain('timeUp')
    expect((await types(anna)).length).toBeGreaterThan(before.length)
    await rig.actions.go({ name: 'draw', drawId: anna })
    await rig.pass(1)
    expect(isListening()).toBe(true)
    await say('needle in')
    expect(await types(anna)).toContain('needleIn')
  })

  it('goes on hearing while its labels are printed', async () => {
    const anna = await rig.begin()
    await rig.follow('labels')
    await rig.actions.go({ name: 'labels', drawId: anna, from: 'draw' })
    expect(isListening()).toBe(true)
    await say('label matches')
    expect(await types(anna)).toContain('labelReadBack')
    expect(rig.state().records.get(anna)?.entries.at(-1)?.event.type).toBe('labelReadBack')
  })

  it('sounds its band alarm again after a reload, before anybody goes on with it', async () => {
    const logStore = createMemoryLogStore(sha256)
    rig = appRig({ logStore })
    await rig.app.start()
    const anna = await rig.begin()
    await rig.follow('needle')
    const left = rig.clock.read()
    rig = appRig({ logStore })
    clock().advance(left.wall_ms - rig.clock.read().wall_ms + 50_000)
    clock().reboot('b')
    await rig.app.start()
    expect(rig.state().screen).toEqual({ name: 'home' })
    await rig.pass(20)
    expect(sound().chimes).toContain('timeUp')
    expect(rig.state().draw).toMatchObject({ drawId: anna, mainClock: { kind: 'band' } })
    // It is the same draw that is gone on with, and it hears only then.
    await rig.actions.go({ name: 'draw', drawId: anna })
    expect(rig.state().screen).toEqual({ name: 'draw', drawId: anna })
    expect(checkLog(await rig.stored(anna), sha256)).toMatchObject({ ok: true })
  })

  it('is not alarmed for after a reload when it is a rehearsal, or hours old', async () => {
    for (const [invented, away_ms] of [
      [true, 10_000],
      [false, 2 * 3_600_000],
    ] as const) {
      const logStore = createMemoryLogStore(sha256)
      rig = appRig({ logStore })
      await rig.app.start()
      await rig.begin({ invented })
      await rig.follow('needle')
      const left = rig.clock.read()
      rig = appRig({ logStore })
      clock().advance(left.wall_ms - rig.clock.read().wall_ms + away_ms)
      await rig.app.start()
      await rig.pass(70)
      expect(sound().chimes).toEqual([])
    }
  })
})

describe('what comes after the close', () => {
  const offered = (drawId: string): string[] => {
    const log = rig.state().records.get(drawId)
    const { way, trouble } = log ? laterActs(log, shippedSite) : { way: [], trouble: [] }
    return [...way, ...trouble].map(({ command }) => command.type)
  }

  it('is added by touch, from the record, one act at a time', async () => {
    const anna = await rig.begin({ tests: ['folate'] })
    await rig.follow('closed')
    await rig.actions.go({ name: 'home' })
    await rig.actions.go({ name: 'chart', drawId: anna })
    expect(offered(anna).slice(0, 2)).toEqual(['spinStarted', 'courierTook'])
    await rig.pass(1)
    clock().advance(31 * 60_000)
    await Promise.all([
      rig.actions.addLater(anna, { type: 'spinStarted' }),
      rig.actions.addLater(anna, { type: 'spinStarted' }),
    ])
    expect((await types(anna)).filter((type) => type === 'spinStarted')).toHaveLength(1)
    expect(offered(anna)[0]).toBe('courierTook')
    await rig.actions.addLater(anna, { type: 'courierTook' })
    await rig.actions.addLater(anna, { type: 'faint' })
    expect(await types(anna)).toEqual(expect.arrayContaining(['courierTook', 'exceptionRaised']))
    expect(rig.state().records.get(anna)?.entries).toEqual((await rig.stored(anna)).entries)
    expect(checkLog(await rig.stored(anna), sha256)).toMatchObject({ ok: true })
  })

  it('tells what is flagged for it, and what cannot be', async () => {
    const anna = await rig.begin({ tests: ['folate'] })
    await rig.follow('closed')
    await rig.actions.addLater(anna, { type: 'spinStarted' })
    expect(rig.state().trouble).toBe(shippedSite.words.flags['spunEarly'])
    await rig.actions.addLater(anna, { type: 'spinStarted' })
    expect(rig.state().trouble).toBe(shippedSite.words.impossible['nothingToSpin'])
  })

  it('is not offered, and not taken, for a draw that is open', async () => {
    const anna = await rig.begin()
    await rig.actions.addLater(anna, { type: 'faint' })
    expect(await types(anna)).not.toContain('exceptionRaised')
    expect(offered(anna)).toEqual([])
  })

  it('shows on the closed draw’s own screen as well', async () => {
    const anna = await rig.begin({ tests: ['folate'] })
    await rig.follow('closed')
    expect(rig.state().draw?.step.id).toBe('spin')
    await rig.actions.addLater(anna, { type: 'spinStarted' })
    expect(rig.state().draw?.step.id).toBe('courier')
  })

  it('stays when the chart is left for the labels and come back to', async () => {
    const anna = await rig.begin()
    await rig.follow('closed')
    await rig.actions.go({ name: 'chart', drawId: anna })
    await rig.actions.addAddendum(anna, 'Right arm.', 'Slip.')
    await rig.actions.go({ name: 'labels', drawId: anna, from: 'chart' })
    await rig.actions.go({ name: 'chart', drawId: anna })
    await rig.actions.addAddendum(anna, 'It was raining.', 'Weather.')
    const file = await rig.actions.exportRecord(anna, 'note')
    expect(file?.text).toContain('Right arm.')
    expect(file?.text).toContain('It was raining.')
  })
})
