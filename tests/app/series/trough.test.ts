import { describe, expect, it } from 'vitest'
import { writeBundle } from '../../../src/core/fhir/bundle.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { laterActs } from '../../../src/app/view/laterActs.ts'
import { texts } from '../../../src/data/en/texts.ts'
import type { AppRig } from '../../support/appRig.ts'
import { ofType } from '../../support/fhirBundle.ts'
import { shippedSite } from '../../support/site.ts'
import { sha256 } from '../../support/sampleLog.ts'
import { drawHere, noteOf, sittingOf, startedRig } from '../../support/seriesRig.ts'

const MIN = 60_000
/** Local minute so many minutes from now, as the form has it. */
const localIn = (rig: AppRig, minutes: number): string => {
  const { wall_ms, offset_min } = rig.clock.read()
  return new Date(wall_ms + (minutes + offset_min) * MIN).toISOString().slice(0, 16)
}

/** Draws to the close and answers what its note says. */
async function drawn(rig: AppRig): Promise<string> {
  const drawId = drawHere(rig)
  await rig.follow('closed')
  await rig.settle()
  return noteOf(rig, drawId)
}

/**
 * A trough is drawn within 30 min before the next dose (Santalo 2016, Pharmacy 4:37, doi 10.3390/pharmacy4040037), a
 * peak of gentamicin 30 min after the end of the infusion (uichildrens.org, drawing gentamicin levels).
 */
describe('a trough', () => {
  it('is due before the dose that the order names, on the screen, in the note, on the label and in FHIR', async () => {
    const rig = await startedRig()
    const moments = { nextDose: localIn(rig, 20) }
    const id = await rig.begin({ tests: ['vancomycinTrough'], moments })
    const dose = moments.nextDose.slice(11)
    expect(rig.state().draw?.sitting).toBe(`trough, 1 of 1, before the dose at ${dose}`)
    const note = await drawn(rig)
    expect(note).toMatch(
      new RegExp(`trough \\(1 of 1\\), to be drawn before the dose at ${dose}:00, drawn in time`),
    )
    expect(note).toContain(`next dose due ${dose}:00`)
    const log = await rig.stored(id)
    expect(labelsFor(log).flatMap(({ timePoints }) => timePoints)).toEqual([
      { point: 'trough', number: 1, of: 1 },
    ])
    const [specimen] = ofType(writeBundle(log, texts, sha256), 'Specimen')
    const told = specimen?.note?.map(({ text }) => text).join(' ')
    expect(told).toMatch(new RegExp(`to be drawn before the dose due \\S+T${dose}:00`))
  })

  it.each([
    [50, /drawn 20 min early/],
    [30, /drawn in time/],
    [1, /drawn in time/],
  ])('drawn %i min before the dose is told as it is', async (minutes, told) => {
    const rig = await startedRig()
    await rig.begin({
      tests: ['vancomycinTrough'],
      moments: { nextDose: localIn(rig, minutes) },
    })
    expect(await drawn(rig)).toMatch(told)
  })

  it('is asked about once the dose was due, and told to the laboratory as off its time', async () => {
    const rig = await startedRig()
    const moments = { nextDose: localIn(rig, -10) }
    await rig.begin({ tests: ['gentamicinTrough'], moments })
    expect(rig.state().draw?.sitting).toContain('ask whether it was given')
    expect(await drawn(rig)).toMatch(/drawn 10 min late.*[^]*Drawn outside its time: trough/)
  })

  it('whose dose nobody told is drawn all the same, and says so', async () => {
    const rig = await startedRig()
    await rig.begin({ tests: ['tacrolimusTrough'] })
    expect(rig.state().draw?.sitting).toBe('trough, 1 of 1: ask when the next dose is due')
    const note = await drawn(rig)
    expect(note).toContain(
      'Not known whether in its time: trough: nobody told when the next dose is due',
    )
    expect(note).not.toContain('Drawn outside its time')
  })

  it.each(['in the draw', 'after the close'])(
    'takes the time of the next dose %s',
    async (when) => {
      const rig = await startedRig()
      const id = await rig.begin({ tests: ['vancomycinTrough'] })
      expect(rig.state().draw?.doseAsked).toBe(id)
      const inTime = localIn(rig, 300).slice(11)
      if (when === 'after the close') {
        await drawn(rig)
        expect(laterActs(await rig.stored(id), shippedSite).doseAsked).toBe(id)
      }
      await rig.actions.tellMoment(id, 'nextDose', { time: inTime, why: '' })
      await rig.settle()
      if (when === 'in the draw') {
        expect(rig.state().draw?.doseAsked).toBeUndefined()
        await drawn(rig)
      }
      const { entries } = await rig.stored(id)
      expect(entries.filter(({ event }) => event.type === 'momentNoted')).toHaveLength(1)
    },
  )

  it('takes a next dose that is still to come, and nothing else that is', async () => {
    const rig = await startedRig()
    await rig.plan({ tests: ['vancomycinTrough'], moments: { nextDose: localIn(rig, 3000) } })
    expect(rig.state().draftErrors).toEqual([])
    await rig.plan({ tests: ['vancomycinPeak'], moments: { infusionEnded: localIn(rig, 3000) } })
    expect(rig.state().draftErrors.map(({ field }) => field)).toEqual(['lastDoses'])
  })
})

describe('a peak', () => {
  it('is due so long after the infusion that the order says has ended', async () => {
    const rig = await startedRig()
    await rig.begin({
      tests: ['gentamicinPeak'],
      moments: { infusionEnded: localIn(rig, -30) },
    })
    expect(rig.state().draw?.sitting).toMatch(/^peak, 1 of 1, due \d\d:\d\d$/)
    expect(await drawn(rig)).toContain('drawn in time')
  })

  it('is counted from the infusion that is told in the draw', async () => {
    const rig = await startedRig()
    await rig.begin({ tests: ['vancomycinPeak'] })
    await rig.touch('infusionEnded')
    expect(rig.state().draw?.sitting).toMatch(/due \d\d:\d\d/)
    expect(await drawn(rig)).toMatch(/drawn 30 min early/)
  })
})

describe('trough and peak of one dose', () => {
  it('go in turn: before the dose, then after its infusion', async () => {
    const rig = await startedRig()
    const id = await rig.begin({
      tests: ['vancomycinTroughPeak'],
      moments: { nextDose: localIn(rig, 10) },
    })
    await drawn(rig)
    await rig.actions.go({ name: 'home' })
    expect(sittingOf(rig, id, 'vancomycinTroughPeak/1')?.state).toBe('done')
    await rig.actions.tellMoment(id, 'infusionEnded')
    const ended_ms = rig.clock.read().wall_ms
    expect(sittingOf(rig, id, 'vancomycinTroughPeak/2')?.due_ms).toBe(ended_ms + 30 * MIN)
  })

  it('has its next dose corrected with a time that is to come, in every record', async () => {
    const rig = await startedRig()
    const id = await rig.begin({ tests: ['vancomycinTroughPeak'] })
    await rig.close()
    await rig.actions.go({ name: 'home' })
    const time = localIn(rig, 45).slice(11)
    await rig.actions.tellMoment(id, 'nextDose', { time })
    const due_ms = sittingOf(rig, id, 'vancomycinTroughPeak/1')?.due_ms
    expect(due_ms).toBeGreaterThan(rig.clock.read().wall_ms + 25 * MIN)
    expect(due_ms).toBeLessThan(rig.clock.read().wall_ms + 35 * MIN)
    // Without a time there is nothing to write: a dose to come has no "now".
    await rig.actions.tellMoment(id, 'nextDose')
    expect(rig.state().series[0]?.moments).toHaveLength(1)
  })
})
