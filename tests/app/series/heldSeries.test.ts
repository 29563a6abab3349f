import { describe, expect, it } from 'vitest'
import type { Series } from '../../../src/core/record/seriesRecord.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { texts } from '../../../src/data/en/texts.ts'
import type { PlainCommand } from '../../../src/core/protocol/commands.ts'
import type { StepId } from '../../../src/core/protocol/steps.ts'
import type { AppRig } from '../../support/appRig.ts'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { drawHere, noteOf, sittingOf, startedRig } from '../../support/seriesRig.ts'

const OGTT = { tests: ['ogtt75'], fasted_h: '10' }
const seriesHere = (rig: AppRig): Series => rig.state().series[0]!
/** The fasting draw, in which something happens at a step, to its close. */
async function firstWith(rig: AppRig, what: PlainCommand, at: StepId): Promise<string> {
  const id = await rig.begin(OGTT)
  await rig.follow(at)
  await rig.touch(what)
  await rig.settle()
  if (rig.state().draw?.ask) await rig.touch('confirmYes')
  for (let i = 0; i < 30 && !rig.state().draw?.closed; i++) {
    for (const command of ['bandOff', 'needleOut', 'exceptionHandled'] as const)
      await rig.touch(command)
    await rig.settle()
    const before = rig.state().draw?.step.id
    await rig.follow('closed').catch(() => undefined)
    if (!rig.state().draw?.closed && rig.state().draw?.step.id === before) await rig.close()
  }
  await rig.settle()
  await rig.actions.go({ name: 'home' })
  return id
}

describe('a series in one of whose draws something happened', () => {
  it.each([
    ['faint', 'bleeding', 'faint'],
    ['swelling', 'tube', 'swelling'],
    ['brightBlood', 'tube', 'brightBlood'],
    ['sharpPain', 'tube', 'sharpPain'],
    ['bleedingContinues', 'bleeding', 'bleedingContinues'],
    ['refuseConsent', 'consent', 'consentRefused'],
    ['withdrawConsent', 'tube', 'consentWithdrawn'],
    ['refuseIdentity', 'identity', 'identityMismatch'],
    ['stopEverything', 'tube', 'stopEverything'],
  ] as const)('%s at %s: the rest waits for a named word', async (what, at, why) => {
    const rig = await startedRig()
    const id = await firstWith(rig, what, at)
    expect(rig.state().draw?.closed).toBeDefined()
    expect(seriesHere(rig).holds).toEqual([{ drawId: id, why, nth: 1 }])

    await rig.actions.openSitting(id, 'ogtt75/2')
    expect(rig.state().screen.name).toBe('home')
    expect(rig.state().trouble).toMatch(/^1 h waits: something happened/)
    expect(await noteOf(rig, id)).toContain(
      `Rest of the series waits after: ${texts.note.words.hold[why]}`,
    )
    const waiting = ofType(bundleOf(await rig.stored(id)), 'Task').filter(({ focus }) => !focus)
    expect(waiting.map(({ status }) => status)).toEqual(['on-hold', 'on-hold'])
    expect(waiting[0]?.statusReason.coding?.map(({ code }) => code)).toEqual([why])

    await rig.actions.goOnWithSeries(id, '  ', 'well again')
    expect(rig.state().trouble).toBe(texts.screens.series.nameAndWhyMissing)
    expect(seriesHere(rig).holds).toHaveLength(1)
    await rig.actions.goOnWithSeries(id, 'Dr. Pat Placeholder', 'well again')
    expect(seriesHere(rig).holds).toEqual([])
    const gone = ofType(bundleOf(await rig.stored(id)), 'Task').filter(({ focus }) => !focus)
    expect(gone.map(({ status }) => status)).toEqual(['ready', 'ready'])
    expect(gone[0]?.statusReason.text).toContain('Dr. Pat Placeholder')

    await rig.actions.openSitting(id, 'ogtt75/2')
    const second = drawHere(rig)
    expect(await noteOf(rig, second)).toMatch(
      /Series gone on with: after .*, by Dr. Pat Placeholder: well again/,
    )
  })

  it('says on the labels of that draw that the rest waits, and no more once it goes on', async () => {
    const rig = await startedRig()
    const id = await firstWith(rig, 'faint', 'bleeding')
    expect(sittingOf(rig, id, 'ogtt75/1')).toMatchObject({ state: 'done' })
    expect(labelsFor(await rig.stored(id)).map(({ held }) => held)).toEqual([true])
    await rig.actions.goOnWithSeries(id, 'Dr. Pat Placeholder', 'well again')
    expect(labelsFor(await rig.stored(id)).map(({ held }) => held)).toEqual([false])
  })

  it('is ended by leaving the rest out, and no go-ahead is wanted then', async () => {
    const rig = await startedRig()
    const id = await firstWith(rig, 'faint', 'bleeding')
    await rig.actions.leaveOutSittings(id, ['ogtt75/2', 'ogtt75/3'], 'fainted, sent home')
    expect(rig.state().series).toEqual([])
    const out = ofType(bundleOf(await rig.stored(id)), 'Task').filter(({ focus }) => !focus)
    expect(out.map(({ status, statusReason }) => [status, statusReason.text])).toEqual([
      ['cancelled', 'fainted, sent home'],
      ['cancelled', 'fainted, sent home'],
    ])
    expect(await noteOf(rig, id)).not.toContain('Rest of the series waits')
  })

  it('waits again for what happens in a later draw; the first go-ahead does not cover it', async () => {
    const rig = await startedRig()
    const id = await firstWith(rig, 'faint', 'bleeding')
    await rig.actions.goOnWithSeries(id, 'Dr. Pat Placeholder', 'well again')
    await rig.actions.openSitting(id, 'ogtt75/2')
    const second = drawHere(rig)
    await rig.follow('bleeding')
    await rig.touch('faint')
    await rig.settle()
    expect(seriesHere(rig).holds).toEqual([])
    await rig.touch('exceptionHandled')
    await rig.follow('closed')
    await rig.settle()
    await rig.actions.go({ name: 'home' })
    expect(seriesHere(rig).holds).toEqual([{ drawId: second, why: 'faint', nth: 1 }])
    const waiting = ofType(bundleOf(await rig.stored(second)), 'Task')
    expect(waiting.map(({ status, code }) => [status, code?.text])).toEqual([
      ['on-hold', '2 h (3 of 3)'],
    ])
    await rig.actions.openSitting(id, 'ogtt75/3')
    expect(rig.state().trouble).toMatch(/^2 h waits/)
  })

  it('of another patient goes on meanwhile', async () => {
    const rig = await startedRig()
    const anna = await firstWith(rig, 'faint', 'bleeding')
    const bert = await rig.begin({ ...OGTT, fullName: 'Bert Second', recordNumber: 'MRN-B' })
    await rig.follow('closed')
    await rig.settle()
    await rig.actions.go({ name: 'home' })
    await rig.actions.openSitting(anna, 'ogtt75/2')
    expect(rig.state().screen.name).toBe('home')
    await rig.actions.openSitting(bert, 'ogtt75/2')
    expect(rig.state().draw?.patientLine).toContain('Bert Second')
  })

  it('is not held by what was taken back', async () => {
    const rig = await startedRig()
    const id = await rig.begin(OGTT)
    await rig.follow('bleeding')
    await rig.touch('faint')
    await rig.touch('goBack')
    await rig.settle()
    await rig.follow('closed')
    await rig.settle()
    await rig.actions.go({ name: 'home' })
    expect(sittingOf(rig, id, 'ogtt75/1')).toMatchObject({ state: 'done' })
    expect(seriesHere(rig).holds).toEqual([])
  })
})
