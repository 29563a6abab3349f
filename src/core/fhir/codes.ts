import type { Additive } from '../catalogue/additives.ts'
import type { Arm } from '../order/order.ts'
import type { Vein } from '../protocol/events.ts'
import type { CodeableConcept, Coding, Quantity } from './resources.ts'

/** HL7 version 2 tables, open to all; LOINC and SNOMED CT are left to the receiver. */
export const v2 = (table: string, code: string, display: string): Coding => ({
  system: `http://terminology.hl7.org/CodeSystem/v2-${table}`,
  code,
  display,
})

/** Names and codes of this app or of the site, kept as given. */
export const LOCAL = {
  draw: 'urn:stillhand:draw',
  test: 'urn:stillhand:test',
  tube: 'urn:stillhand:tube',
  additive: 'urn:stillhand:additive',
  site: 'urn:stillhand:site',
  specimen: 'urn:stillhand:specimen',
  order: 'urn:stillhand:order',
  patient: 'urn:stillhand:patient',
  collector: 'urn:stillhand:collector',
  log: 'urn:stillhand:log',
} as const

/** Marks invented data, as FHIR R4 asks for test data (security label HTEST of ActReason). */
export const TEST_DATA: Coding = {
  system: 'http://terminology.hl7.org/CodeSystem/v3-ActReason',
  code: 'HTEST',
  display: 'test health data',
}

interface AdditiveCode {
  readonly coding?: Coding
  readonly text: string
}

/**
 * Table 0371, where it has a code that says no more than is known. It has none for a clot activator in general
 * (SILICA is 12 mg of siliceous earth), for culture broth, or for ACD without its kind. `additive[x]` is 0..1 and its
 * codings must mean the same, so fluoride with oxalate has one code and the rest in its text.
 */
const ADDITIVE_CODES: Readonly<Record<Additive, AdditiveCode>> = {
  cultureAerobic: { text: 'Culture broth, aerobic' },
  cultureAnaerobic: { text: 'Culture broth, anaerobic' },
  citrate: { coding: v2('0371', 'C32', '3.2% Citrate'), text: '3.2% sodium citrate' },
  plain: { coding: v2('0371', 'NONE', 'None'), text: 'No additive' },
  activator: { text: 'Clot activator' },
  activatorGel: {
    coding: v2('0371', 'SST', 'Serum Separator Tube (Polymer Gel)'),
    text: 'Clot activator and gel',
  },
  thrombin: { coding: v2('0371', 'THROM', 'Thrombin'), text: 'Thrombin' },
  heparinLithium: { coding: v2('0371', 'HEPL', 'Lithium/Li Heparin'), text: 'Lithium heparin' },
  heparinLithiumGel: {
    coding: v2('0371', 'HEPL', 'Lithium/Li Heparin'),
    text: 'Lithium heparin and gel',
  },
  heparinSodium: { coding: v2('0371', 'HEPN', 'Sodium/Na Heparin'), text: 'Sodium heparin' },
  edtaK2: { coding: v2('0371', 'EDTK', 'Potassium/K EDTA'), text: 'K2 EDTA' },
  edtaK3: { coding: v2('0371', 'EDTK', 'Potassium/K EDTA'), text: 'K3 EDTA' },
  edtaK2Gel: { coding: v2('0371', 'EDTK', 'Potassium/K EDTA'), text: 'K2 EDTA and gel' },
  fluorideOxalate: {
    coding: v2('0371', 'NAF', 'Sodium Fluoride'),
    text: 'Sodium fluoride and potassium oxalate',
  },
  fluorideCitrate: {
    coding: v2('0371', 'NAF', 'Sodium Fluoride'),
    text: 'Sodium fluoride and citrate',
  },
  acd: { text: 'Acid citrate dextrose' },
  traceActivator: { text: 'Clot activator, trace element tube' },
  traceEdta: { coding: v2('0371', 'EDTK', 'Potassium/K EDTA'), text: 'EDTA, trace element tube' },
}

export function additiveConcept(additive: Additive): CodeableConcept {
  const { coding, text } = ADDITIVE_CODES[additive]
  const local: Coding = { system: LOCAL.additive, code: additive }
  return { coding: coding ? [coding, local] : [local], text }
}

/** Table 0163. Only the median cubital vein always lies in the antecubital fossa; the others are given by arm. */
export function siteConcept(arm: Arm, vein: Vein | undefined): CodeableConcept {
  const left = arm === 'left'
  const side = left ? 'Left' : 'Right'
  const at: Coding =
    vein === 'medianCubital'
      ? v2('0163', left ? 'LACF' : 'RACF', `${side} Antecubital Fossa`)
      : vein === 'hand'
        ? v2('0163', left ? 'LH' : 'RH', `${side} Hand`)
        : v2('0163', left ? 'LA' : 'RA', `${side} Arm`)
  const local: Coding = { system: LOCAL.site, code: vein ? `${arm}-${vein}` : arm }
  return { coding: [at, local] }
}

/** UCUM units. */
export function quantity(value: number, unit: 'mL' | 'h'): Quantity {
  return { value, unit, system: 'http://unitsofmeasure.org', code: unit }
}
