import { describe, expect, it } from 'vitest'
import { labelWords } from '../../../src/app/record/labelWords.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { checkLog } from '../../../src/core/log/checkLog.ts'
import { unexplained } from '../../../src/core/log/sense/unexplained.ts'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { SITE } from '../../support/planning.ts'
import { playScenario, readScript, scenarioFiles } from '../../support/scenarioSite.ts'
import { sha256 } from '../../support/sampleLog.ts'

function played(name: string) {
  const text = scenarioFiles().find((file) => file.name === name)?.text ?? ''
  const reading = readScript(text)
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
  return playScenario(reading.value).log
}
const at = (text: string) => Date.parse(text)

describe('the record of a draw by syringe', () => {
  const log = played('syringe')
  const { text } = writeNote(log, noteTemplate)

  it('names the syringe, when it was filled and with how much, and each tube as transferred', () => {
    expect(text).toMatch(/Needle: .*10 mL syringe with transfer device/)
    expect(text).toMatch(/Syringe filled: .*about \d/)
    expect(text).toMatch(/Transfer device: \d/)
    expect(text.match(/Transferred: out of the 10 mL syringe of puncture 1/g)).toHaveLength(2)
  })

  it('counts what stayed in the syringe as blood drawn', () => {
    const drawn = Number(/Drawn: about ([\d.]+) mL/.exec(text)?.[1])
    const filled = log.entries.flatMap(({ event }) =>
      event.type === 'syringeFilled' ? [event.planned_mL] : [],
    )
    expect(drawn).toBe(filled[0])
  })

  it('tells when the blood left the vein, not when the tube filled, on label and in the bundle', () => {
    const pulled = log.entries.find(({ event }) => event.type === 'syringeFilled')
    const bundle = bundleOf(log)
    const specimens = ofType(bundle, 'Specimen')
    expect(specimens).toHaveLength(2)
    for (const { collection, processing } of specimens) {
      expect(at(collection.collectedPeriod?.end ?? '')).toBe(Math.floor((pulled?.at.at_ms ?? 0) / 1000) * 1000) // prettier-ignore
      expect(processing?.[0]?.description).toBe('Transferred out of a 10 mL syringe')
    }
    const [code] = ofType(bundle, 'Procedure')[0]?.usedCode ?? []
    expect(code?.coding?.[0]?.code).toMatch(/syringe10mL$/)
    const labels = labelsFor(log, labelWords({ ...SITE, texts }))
    expect(new Set(labels.map(({ collected }) => collected)).size).toBe(1)
  })

  it('is a log that holds and that the app itself explains', () => {
    expect(checkLog(log, sha256)).toMatchObject({ ok: true })
    expect(unexplained(log)).toEqual([])
  })
})

describe('what the laboratory is told of blood out of a syringe', () => {
  it('a late transfer, a missing device and slow blood are risks of their tubes', () => {
    const late = specimenRisks(played('syringe-late'), texts.record).map(({ code }) => code)
    expect(late).toContain('transferLate')
    expect(late).toContain('noTransferDevice')
    const slow = specimenRisks(played('syringe'), texts.record).map(({ code }) => code)
    expect(slow).toContain('slowPull')
    expect(slow).not.toContain('transferLate')
    expect(slow).not.toContain('noTransferDevice')
    expect(slow).not.toContain('slowFill')
  })
})
