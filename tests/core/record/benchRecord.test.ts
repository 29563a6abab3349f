import { describe, expect, it } from 'vitest'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { sampleLog, type Line } from '../../support/sampleLog.ts'

const noteOf = (...add: Line[]): string => recordNote(sampleLog({ add }), texts).text
const specimensOf = (...add: Line[]) => ofType(bundleOf(sampleLog({ add })), 'Specimen')
const codes = (...add: Line[]): string[] =>
  specimenRisks(sampleLog({ add }), texts.record).map(({ code }) => code)

const RUN: readonly Line[] = [
  [2400, { type: 'spinStarted', tubeIds: ['t2'], g: 1300, spin_min: 10, temperature: 'room' }],
  [3000, { type: 'spinEnded', tubeIds: ['t2'] }],
  [3060, { type: 'separated', tubeIds: ['t2'] }],
  [3100, { type: 'aliquoted', tubeIds: ['t2'], portions: 2 }],
  [3200, { type: 'stored', tubeIds: ['t2', 't3'], where: 'fridge' }],
  [3300, { type: 'bagged', tubeIds: ['t2', 't3'], bag: 'B7' }],
  [3600, { type: 'courierTook', tubeIds: ['t2', 't3'], courier: 'Casey', pack: 'P1' }],
]

describe('the note', () => {
  it('tells a specimen the whole way, with time, force, place and who took it', () => {
    const text = noteOf(...RUN)
    for (const part of [/1300 g, 10 min/, /2 portions/, /refrigerator/, /B7/, /Casey, P1/])
      expect(text).toMatch(part)
  })

  it('tells why the laboratory turned it down', () => {
    const text = noteOf(...RUN, [
      9000,
      { type: 'labRejected', tubeIds: ['t2'], reason: 'RH', note: 'index 4' },
    ])
    expect(text).toMatch(/Turned down by the laboratory.*\n?.*hemolyzed, index 4/)
  })
})

describe('the FHIR bundle', () => {
  it('has the spin as a procedure with its period, force and minutes', () => {
    const serum = specimensOf(...RUN).find(({ container }) =>
      container[0]?.type.coding?.some(({ code }) => code?.includes('activatorGel')),
    )
    const spin = serum?.processing?.find(({ procedure }) => procedure)
    expect(spin?.procedure?.text).toBe(texts.record.fhir.spun)
    expect(spin?.description).toMatch(/1300 g, 10 min, room temperature/)
    expect(spin?.timePeriod?.start).toBe('2026-11-25T09:40:00+01:00')
    expect(spin?.timePeriod?.end).toBe('2026-11-25T09:50:00+01:00')
    expect(
      serum?.condition?.flatMap(({ coding = [] }) => coding.map(({ code }) => code)),
    ).toContain('CFU')
  })

  // FHIR R4 Specimen.status and receivedTime; HL7 v2 table 0490 for the reason, display as published.
  it('says when it was received, and that one was turned down and why', () => {
    const all = specimensOf(
      ...RUN,
      [7200, { type: 'labReceived', tubeIds: ['t2', 't3'] }],
      [9000, { type: 'labRejected', tubeIds: ['t2'], reason: 'RC' }],
    )
    expect(all.map(({ status }) => status).sort()).toEqual([
      'available',
      'available',
      'unsatisfactory',
    ])
    const turned = all.find(({ status }) => status === 'unsatisfactory')
    expect(turned?.receivedTime).toBe('2026-11-25T11:00:00+01:00')
    expect(turned?.condition?.flatMap(({ coding = [] }) => coding)).toContainEqual({
      system: 'http://terminology.hl7.org/CodeSystem/v2-0490',
      code: 'RC',
      display: 'Clotting',
    })
  })
})

describe('risks of the way', () => {
  it('a gel spun twice, and none of a spin that was taken back', () => {
    const twice: Line[] = [...RUN.slice(0, 2), [3010, { type: 'spinStarted', tubeIds: ['t2'] }]]
    expect(codes(...twice)).toContain('spunTwice')
    expect(codes(...RUN.slice(0, 2))).not.toContain('spunTwice')
  })

  it('citrated blood in the cold before its spin, and not after', () => {
    const cold: Line = [3700, { type: 'stored', tubeIds: ['t1'], where: 'fridge' }]
    expect(codes(cold)).toContain('keptCold')
    expect(codes([2000, { type: 'spinStarted', tubeIds: ['t1'] }], cold)).not.toContain('keptCold')
  })

  it('holds a told time of a spin, not the time it was written down', () => {
    const at = (minutes: number): Line => [
      5000,
      {
        type: 'spinStarted',
        tubeIds: ['t2'],
        at_ms: Date.UTC(2026, 10, 25, 8, 0, 0) + minutes * 60_000,
      },
    ]
    expect(codes(at(20))).toContain('spunEarly')
    expect(codes(at(60))).not.toContain('spunEarly')
  })
})
