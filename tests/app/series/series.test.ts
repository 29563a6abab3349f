import { describe, expect, it } from 'vitest'
import type { DrawOpened } from '../../../src/core/protocol/events.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { texts } from '../../../src/data/en/texts.ts'
import type { AppRig } from '../../support/appRig.ts'
import type { FakeSound } from '../../support/fakeSound.ts'
import { shippedSite } from '../../support/site.ts'
import { drawFirst, drawHere, noteOf, sittingOf, startedRig } from '../../support/seriesRig.ts'

const OGTT = { tests: ['ogtt75'], fasted_h: '10' }

const opening = async (rig: AppRig, drawId: string): Promise<DrawOpened> => {
  const { event } = (await rig.stored(drawId)).entries[0]!
  if (event.type !== 'drawOpened') throw new Error('no opening')
  return event
}

describe('an order of several draws', () => {
  it('opens the first with its own tests, and keeps the others for later', async () => {
    const rig = await startedRig()
    const drawId = await rig.begin(OGTT)
    const { order, sitting: as } = await opening(rig, drawId)
    expect(order.tests).toEqual(['glucoseFasting'])
    expect(as?.series).toBe(drawId)
    expect(as?.parts.map(({ point }) => point)).toEqual(['fasting'])
    expect(as?.later?.map(({ point }) => point)).toEqual(['1 h', '2 h'])
  })

  it('speaks to the patient in their language in each draw, also where the chair changed it', async () => {
    const rig = await startedRig()
    const id = await rig.begin(OGTT)
    await rig.touch({ type: 'choosePatientLanguage', language: 'es' })
    await rig.follow('closed')
    await rig.actions.go({ name: 'home' })
    await rig.actions.tellMoment(id, 'drinkFinished')
    rig.clock.advance(57 * 60_000)
    await rig.actions.openSitting(id, 'ogtt75/2')
    expect(rig.state().draw?.patient.language).toBe('es')
    expect(await opening(rig, drawHere(rig))).toMatchObject({ patientLanguage: 'es' })
  })

  it('without a series is the draw that it always was', async () => {
    const rig = await startedRig()
    const event = await opening(rig, await rig.begin({ tests: ['cbc'] }))
    expect(event.order.tests).toEqual(['cbc'])
    expect(event).not.toHaveProperty('sitting')
    expect(rig.state().series).toEqual([])
  })

  it('goes from the fasting sample over the drink to a sample in its time', async () => {
    const rig = await startedRig()
    const id = await drawFirst(rig)
    expect(sittingOf(rig, id, 'ogtt75/2')).toMatchObject({ state: 'todo' })
    expect(sittingOf(rig, id, 'ogtt75/2')?.due_ms).toBeUndefined()
    const drunk_ms = rig.clock.read().wall_ms
    await rig.actions.tellMoment(id, 'drinkFinished')
    expect(sittingOf(rig, id, 'ogtt75/2')?.due_ms).toBe(drunk_ms + 3_600_000)

    rig.clock.advance(57 * 60_000)
    await rig.actions.openSitting(id, 'ogtt75/2')
    const second = drawHere(rig)
    expect(second).not.toBe(id)
    // Identity is asked again, with everything else filled in.
    expect(rig.state().draw?.step.id).toBe('identity')
    expect(rig.state().draw?.sitting).toMatch(/^1 h, 2 of 3, due \d\d:\d\d$/)
    const event = await opening(rig, second)
    const begun = await opening(rig, id)
    expect(event.patient).toEqual(begun.patient)
    expect(event.order).toEqual({ ...begun.order, tests: ['glucose75g1h'] })
    expect(event.plan.blood.earlier_mL).toBe(begun.plan.blood.draw_mL)
    expect(event.sitting).toMatchObject({ series: id, moments: [{ moment: 'drinkFinished' }] })

    await rig.follow('closed')
    await rig.settle()
    const log = await rig.stored(second)
    expect(labelsFor(log).map((label) => label.timePoints)).toEqual([
      [{ point: '1 h', number: 2, of: 3 }],
    ])
    const { text } = recordNote(
      log,
      texts,
      (code) => code,
      () => false,
    )
    expect(text).toMatch(/Time point: 1 h \(2 of 3\), due \d\d:\d\d:\d\d, drawn in time/)
    expect(text).toContain(`begun with draw ${id}`)
    expect(sittingOf(rig, id, 'ogtt75/2')).toMatchObject({ state: 'done' })
  })

  it('tells a late sample in the note and to the laboratory', async () => {
    const rig = await startedRig()
    const id = await drawFirst(rig)
    await rig.actions.tellMoment(id, 'drinkFinished')
    rig.clock.advance(80 * 60_000)
    await rig.actions.openSitting(id, 'ogtt75/2')
    await rig.follow('closed')
    await rig.settle()
    const drawId = rig.state().draw?.drawId ?? ''
    const text = await noteOf(rig, drawId)
    expect(text).toMatch(/drawn 2\d min late/)
    expect(text).toMatch(
      /Drawn outside its time: 1 h: drawn 2\d min after its time; 5 min are allowed/,
    )
  })

  it('says so where nobody told when the drink was finished', async () => {
    const rig = await startedRig()
    const id = await drawFirst(rig)
    await rig.actions.openSitting(id, 'ogtt75/2')
    await rig.follow('closed')
    await rig.settle()
    const drawId = rig.state().draw?.drawId ?? ''
    const log = await rig.stored(drawId)
    const text = (): string =>
      recordNote(
        log,
        texts,
        (code) => code,
        () => false,
      ).text
    expect(text()).toContain('nobody told the moment it is counted from')
  })

  it('takes the drink in the draw by its command, and no other moment', async () => {
    const rig = await startedRig()
    const id = await rig.begin(OGTT)
    await rig.follow('labels')
    expect(rig.state().draw?.choices.map(({ command }) => command.type)).toContain('drinkFinished')
    await rig.touch('drinkFinished')
    await rig.touch('doseGiven')
    await rig.follow('closed')
    await rig.settle()
    await rig.actions.go({ name: 'home' })
    const told = (await rig.stored(id)).entries.filter(({ event }) => event.type === 'momentNoted')
    expect(told.map(({ event }) => event)).toEqual([
      { type: 'momentNoted', moment: 'drinkFinished' },
    ])
    expect(sittingOf(rig, id, 'ogtt75/3')?.due_ms).toBe(told[0]!.at.at_ms + 7_200_000)
  })

  it('corrects a moment with a reason, in every record of the series, and keeps the first word', async () => {
    const rig = await startedRig()
    const id = await drawFirst(rig)
    await rig.actions.tellMoment(id, 'drinkFinished')
    rig.clock.advance(60 * 60_000)
    await rig.actions.openSitting(id, 'ogtt75/2')
    await rig.follow('closed')
    await rig.settle()
    const second = rig.state().draw?.drawId ?? ''
    await rig.actions.tellMoment(id, 'drinkFinished', { time: '08:55', why: 'read off the wall' })
    for (const drawId of [id, second]) {
      const text = await noteOf(rig, drawId)
      expect(text).toMatch(/Counted from: drink finished .*; drink finished corrected to 08:55:00/)
      expect(text).toContain('read off the wall')
    }
    expect(rig.state().series[0]?.moments.filter((m) => m.moment === 'drinkFinished')).toHaveLength(
      2,
    )
  })

  it('does not take a time that is none or is still to come', async () => {
    const rig = await startedRig()
    const id = await drawFirst(rig)
    await rig.actions.tellMoment(id, 'drinkFinished', { time: '25:00' })
    expect(rig.state().trouble).toContain('25:00')
    expect(rig.state().series[0]?.moments.filter((m) => m.moment === 'drinkFinished')).toEqual([])
  })

  it('ends with a reason when the drink was vomited, and what was drawn stays', async () => {
    const rig = await startedRig()
    const id = await drawFirst(rig)
    await rig.actions.tellMoment(id, 'drinkFinished')
    await rig.actions.leaveOutSittings(id, ['ogtt75/2', 'ogtt75/3'], '  ')
    expect(rig.state().trouble).toBe(texts.screens.series.whyMissing)
    await rig.actions.leaveOutSittings(id, ['ogtt75/2', 'ogtt75/3'], 'vomited the drink')
    expect(rig.state().series).toEqual([])
    const text = await noteOf(rig, id)
    expect(text).toMatch(/Sittings left out: .*1 h.*2 h.*vomited the drink/)
    await rig.actions.openSitting(id, 'ogtt75/2')
    expect(rig.state().screen.name).toBe('home')
    expect(rig.state().trouble).toBe('1 h was left out.')
  })

  it('asks for a sitting again whose draw failed', async () => {
    const rig = await startedRig()
    const id = await rig.begin(OGTT)
    await rig.close()
    await rig.actions.go({ name: 'home' })
    expect(sittingOf(rig, id, 'ogtt75/1')).toMatchObject({ state: 'failed' })
    await rig.actions.openSitting(id, 'ogtt75/1')
    const again = drawHere(rig)
    await rig.follow('closed')
    await rig.settle()
    await rig.actions.go({ name: 'home' })
    expect(sittingOf(rig, id, 'ogtt75/1')).toMatchObject({ state: 'done', drawId: again })
  })

  it('counts a troponin series from its first sample by itself', async () => {
    const rig = await startedRig()
    const id = await drawFirst(rig, { tests: ['troponin0and3h'] })
    const off = (await rig.stored(id)).entries.find(({ event }) => event.type === 'tubeOff')
    expect(sittingOf(rig, id, 'troponin0and3h/2')?.due_ms).toBe(off!.at.at_ms + 3 * 3_600_000)
  })

  it('calls out once when a sample is due, not while a draw runs, and tells of nobody', async () => {
    const rig = await startedRig()
    const { chimes, spoken } = rig.deps.sound as FakeSound
    const id = await drawFirst(rig)
    await rig.actions.tellMoment(id, 'drinkFinished')
    const [chimesBefore, spokenBefore] = [chimes.length, spoken.length]
    rig.clock.advance(60 * 60_000)
    await rig.pass(4)
    // The tube of the first draw waits on the bench meanwhile, and is called out too: one chime each, and no other.
    const calledOut = () => spoken.slice(spokenBefore)
    expect(calledOut().filter((key) => !key.startsWith('bench.'))).toEqual(['series.due'])
    expect(chimes.slice(chimesBefore)).toEqual(calledOut().map(() => 'timeUp'))
    expect(rig.state().dues_ms).toHaveLength(2)
    const calls = calledOut().length
    await rig.pass(10)
    expect(calledOut()).toHaveLength(calls)
    expect(chimes.slice(chimesBefore)).toHaveLength(calls)
  })

  it('calls beside another patient in a low voice, never over a needle, and in no name', async () => {
    const rig = await startedRig()
    const { chimes, spoken } = rig.deps.sound as FakeSound
    const id = await drawFirst(rig)
    await rig.actions.tellMoment(id, 'drinkFinished')
    rig.clock.advance(58 * 60_000)
    await rig.begin({ fullName: 'Bert Second', recordNumber: 'MRN-B', orderNumber: 'O-2' })
    await rig.follow('tube')
    expect(rig.state().draw?.step.id).toBe('tube')
    rig.clock.advance(3 * 60_000)
    await rig.pass(4)
    expect(spoken).not.toContain('series.due')
    expect(rig.state().seriesNow_ms).toBeGreaterThan(sittingOf(rig, id, 'ogtt75/2')!.due_ms!)
    await rig.follow('bleeding')
    const before = chimes.length
    await rig.pass(4)
    expect(spoken.filter((key) => key === 'series.due')).toHaveLength(1)
    expect(chimes.slice(before)).toContain('nearlyUp')
    await rig.pass(10)
    expect(spoken.filter((key) => key === 'series.due')).toHaveLength(1)
    // A prompt is a recording with no place for a name.
    expect(shippedSite.prompts.prompts['series.due']).toBe('A timed sample is due.')
  })

  it('calls in its own draw while that is not drawn yet, and no more once it is', async () => {
    for (const [until, calls] of [
      ['cleanse', 1],
      ['bleeding', 0],
    ] as const) {
      const rig = await startedRig()
      const { spoken } = rig.deps.sound as FakeSound
      const id = await drawFirst(rig)
      await rig.actions.tellMoment(id, 'drinkFinished')
      rig.clock.advance(56 * 60_000)
      await rig.actions.openSitting(id, 'ogtt75/2')
      await rig.follow(until)
      expect(spoken).not.toContain('series.due')
      rig.clock.advance(5 * 60_000)
      await rig.pass(4)
      expect(spoken.filter((key) => key === 'series.due')).toHaveLength(calls)
    }
  })

  it('stays listed for as long as somebody has not closed it, and is gone once they have', async () => {
    const rig = await startedRig()
    const id = await drawFirst(rig)
    rig.clock.advance(40 * 86_400_000)
    await rig.actions.go({ name: 'home' })
    expect(sittingOf(rig, id, 'ogtt75/2')).toMatchObject({ state: 'todo' })
    await rig.actions.leaveOutSittings(id, ['ogtt75/2', 'ogtt75/3'], 'never came back')
    expect(rig.state().series).toEqual([])
    await rig.actions.go({ name: 'home' })
    expect(rig.state().series).toEqual([])
  })
})
