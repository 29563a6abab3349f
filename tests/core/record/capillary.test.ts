import { describe, expect, it } from 'vitest'
import { labelWords } from '../../../src/app/record/labelWords.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { playScenario, readScript, scenarioFiles } from '../../support/scenarioSite.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { SITE } from '../../support/planning.ts'

function played(name: string) {
  const text = scenarioFiles().find((file) => file.name === name)?.text ?? ''
  const reading = readScript(text)
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
  return playScenario(reading.value).log
}

describe('the record of blood from a heel', () => {
  const log = played('heel')
  const note = writeNote(log, noteTemplate)

  it('is a note without tourniquet, needle or vein, and with what was done to the skin', () => {
    expect(note.title).toBe('Capillary blood collection note')
    expect(note.text).not.toMatch(/tourniquet|needle (?:in|out)|venipuncture|No needle was used/i)
    const skin = note.sections.find(({ each }) => each === 'skin')
    expect(skin?.lines.map(({ label }) => label)).toContain('First drop wiped away')
    expect(skin?.lines.filter(({ missing }) => missing)).toEqual([])
  })

  it('tells of each tube that it was filled in part as planned, and counts that blood', () => {
    expect(note.text).toMatch(/full to the planned mark, 0\.4 mL/)
    expect(note.text).not.toContain('SHORT')
  })

  it('every label says capillary, the side and the place, and the planned fill', () => {
    const labels = labelsFor(log, labelWords({ ...SITE, texts }))
    expect(labels.map(({ bodySite }) => bodySite)).toEqual(['Capillary, left heel', 'Capillary, left heel']) // prettier-ignore
    expect(labels[0]).toMatchObject({ tubeName: 'EDTA, micro 0.5 mL', fill_mL: 0.4 })
  })
})

describe('what the laboratory is told of drops', () => {
  it('squeezing and slow drops are risks of the tube they befell, not of a failed try before', () => {
    const risks = specimenRisks(played('finger-slow'), texts.record)
    const found = risks.filter(({ code }) => code === 'squeezed' || code === 'slowDrops')
    expect(found.map(({ code }) => code)).toEqual(['squeezed', 'slowDrops'])
    expect(found.every(({ tubeIds }) => tubeIds.length === 1)).toBe(true)
  })

  it('and a heel where nothing happened has none of them', () => {
    const codes = specimenRisks(played('heel'), texts.record).map(({ code }) => code)
    expect(codes.filter((code) => ['squeezed', 'slowDrops', 'thinNeedle', 'slowFill', 'bandLong'].includes(code))).toEqual([]) // prettier-ignore
  })
})
