import { describe, expect, it } from 'vitest'
import { labelWords } from '../../../src/app/record/labelWords.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { SITE } from '../../support/planning.ts'
import { playScenario, readScript, scenarioFiles } from '../../support/scenarioSite.ts'
import { sampleLog, sampleOpening } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'
import type { Preparation } from '../../../src/core/order/order.ts'

const script = readScript(scenarioFiles().find(({ name }) => name === 'newborn-card')?.text ?? '')
if (!script.ok) throw new Error(JSON.stringify(script.faults))
const { log } = playScenario(script.value)

describe('the record of a newborn card', () => {
  const risks = specimenRisks(log, texts.record)

  it('tells of every circle, and a layered one is a risk of the card alone', () => {
    const text = writeNote(log, noteTemplate).text
    expect(text).toContain('Circles: 4 of 5 good; layered 1')
    expect(text).not.toContain('SHORT')
    expect(text).toContain('a drop on each circle')
    expect(text).toContain('Last feed: not asked')
    expect(risks.map(({ code, tubeIds }) => [code, tubeIds])).toContainEqual([
      'cardCircles',
      ['t1'],
    ])
    expect(risks.map(({ code }) => code)).not.toContain('shortTube')
    expect(risks.map(({ code }) => code)).not.toContain('cardWet')
  })

  it('its label says what it is and how it is kept', () => {
    const [label] = labelsFor(log, labelWords({ ...SITE, texts }))
    expect(label).toMatchObject({ tubeName: 'Filter paper card', bodySite: 'Capillary, left heel' })
    expect(JSON.stringify(label)).toContain('1440')
  })
})

describe('what a screening laboratory must know of the newborn', () => {
  const card = samplePlan([sampleTube('t1', 'edtaK2'), sampleTube('t2', 'activatorGel'), sampleTube('t3', 'filterPaper')]) // prettier-ignore
  const of = (told: Partial<Preparation>) =>
    sampleLog({
      opening: {
        collecting: 'capillaryHeel',
        plan: card,
        preparation: { ...sampleOpening().preparation, ...told },
      },
      add: [[90, { type: 'lanced', attempt: 1 }]],
    })
  const found = (told: Partial<Preparation>) =>
    specimenRisks(of(told), texts.record).find(({ code }) => code === 'cardEarly')?.found

  // 24 to 48 h of age: med.unr.edu, newbornscreening.health.utah.gov (excerpts). The sample draw is opened at 09:00.
  it('hours of age by the time of birth, told early below 24', () => {
    const day = sampleOpening().plan && of({}).entries[0]?.at
    if (!day) throw new Error('no entry')
    const local = new Date(day.at_ms + day.offset_min * 60_000).toISOString().slice(0, 16)
    const before = (hours: number): string =>
      new Date(Date.parse(`${local}:00Z`) - hours * 3_600_000).toISOString().slice(0, 16)
    expect(found({ bornAt: before(23) })).toMatch(/^23 h old/)
    expect(found({ bornAt: before(24) })).toBeUndefined()
    expect(writeNote(of({ bornAt: before(30) }), noteTemplate).text).toMatch(
      /Age at collection: 30 h/,
    )
    expect(found({ ageTold: 'underDay' })).toMatch(/first day/)
    expect(found({})).toMatch(/Nobody asked/)
  })

  it('a transfusion since birth', () => {
    const codes = (told: Partial<Preparation>) =>
      specimenRisks(of(told), texts.record).map(({ code }) => code)
    expect(codes({ transfused: true })).toContain('cardTransfused')
    expect(codes({ transfused: false })).not.toContain('cardTransfused')
  })
})
