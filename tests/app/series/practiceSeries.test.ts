import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readScenarios } from '../../../src/app/site/readScenarios.ts'
import { seriesOf } from '../../../src/core/record/seriesRecord.ts'
import { texts } from '../../../src/data/en/texts.ts'
import type { FakeSound } from '../../support/fakeSound.ts'
import { drawFirst, drawHere, noteOf, sittingOf, startedRig } from '../../support/seriesRig.ts'
import { shippedSite } from '../../support/site.ts'

const SCRIPT = 'whole-series'
const script = readFileSync(`src/data/scenarios/${SCRIPT}.txt`, 'utf8')
const scenarios = readScenarios({ [`./${SCRIPT}.txt`]: script }, shippedSite)
const MIN = 60_000

/** The fasting sample of practice is drawn, and the drink told. */
async function begun() {
  const rig = await startedRig({ scenarios })
  await rig.actions.startPractice(SCRIPT)
  const id = drawHere(rig)
  await rig.follow('closed')
  await rig.settle()
  await rig.actions.go({ name: 'home' })
  await rig.actions.tellMoment(id, 'drinkFinished')
  return { rig, id }
}

describe('practice of a whole series', () => {
  it('goes through its draws with the waits shortened, each with its own part of the script', async () => {
    const { rig, id } = await begun()
    const told_ms = rig.clock.read().wall_ms
    expect(sittingOf(rig, id, 'ogtt75/2')?.due_ms).toBe(told_ms + 6 * MIN)
    expect(sittingOf(rig, id, 'ogtt75/3')?.due_ms).toBe(told_ms + 12 * MIN)
    for (const [key, point] of [
      ['ogtt75/2', '1 h, 2 of 3'],
      ['ogtt75/3', '2 h, 3 of 3'],
    ] as const) {
      rig.clock.advance(6 * MIN)
      await rig.actions.openSitting(id, key)
      expect(rig.state().trouble).toBeUndefined()
      expect(rig.state().draw).toMatchObject({ invented: true, step: { id: 'identity' } })
      expect(rig.state().draw?.sitting).toContain(point)
      expect(rig.state().draw?.coach?.tell[0]).toContain('The same patient')
      const drawId = drawHere(rig)
      await rig.follow('closed')
      await rig.settle()
      await rig.actions.go({ name: 'home' })
      const note = await noteOf(rig, drawId)
      expect(note).toContain('drawn in time')
      expect(note).toContain('practice: an hour of waiting lasted 6 min')
    }
    expect(rig.state().series).toEqual([])
  })

  it('leads from the end of one script to the first screen, and from the last to its own end', async () => {
    const rig = await startedRig({ scenarios })
    await rig.actions.startPractice(SCRIPT)
    for (let n = 0; rig.state().draw?.coach?.act !== undefined && n < 60; n++) {
      await rig.touch({ type: 'addNote', text: 'on with the script' })
      await rig.settle()
    }
    expect(rig.state().draw?.coach?.tell).toEqual([texts.draw.coach.endOfSitting])
  })

  it('is never counted together with the draws of a patient', async () => {
    const { rig, id } = await begun()
    const practice = await rig.stored(id)
    const [first, ...rest] = practice.entries
    if (first?.event.type !== 'drawOpened') throw new Error('no opening')
    const { parts, later = [] } = first.event.sitting!
    const drawId = 'KM47-20261125-9999'
    const sitting = { ...first.event.sitting!, parts: later.slice(0, 1), later: [] }
    const event = { ...first.event, drawId, invented: false, sitting }
    const patient = { ...practice, drawId, entries: [{ ...first, event }, ...rest] }
    expect(seriesOf([practice])?.sittings[1]?.state).toBe('todo')
    expect(seriesOf([practice, patient])?.sittings[1]?.state).toBe('todo')
    expect(parts).toHaveLength(1)
  })

  it('calls out when a sample is due, but not while one of a patient is waited for', async () => {
    const alone = await begun()
    const { spoken } = alone.rig.deps.sound as FakeSound
    alone.rig.clock.advance(6 * MIN)
    await alone.rig.pass(4)
    expect(spoken.filter((key) => key === 'series.due')).toHaveLength(1)
    // Nothing of it is told on other screens or while locked: those tell of patients.
    expect(alone.rig.state().dues_ms).toEqual([])

    const beside = await begun()
    const real = await drawFirst(beside.rig)
    await beside.rig.actions.tellMoment(real, 'drinkFinished')
    beside.rig.clock.advance(6 * MIN)
    await beside.rig.pass(4)
    expect((beside.rig.deps.sound as FakeSound).spoken).not.toContain('series.due')
    expect(beside.rig.state().dues_ms).toHaveLength(2)
  })

  it('is no longer listed after a day; a series of a patient is', async () => {
    const { rig, id } = await begun()
    const real = await drawFirst(rig)
    expect(
      rig
        .state()
        .series.map((series) => series.id)
        .sort(),
    ).toEqual([id, real].sort())
    rig.clock.advance(25 * 60 * MIN)
    await rig.actions.go({ name: 'home' })
    expect(rig.state().series.map((series) => series.id)).toEqual([real])
  })
})
