import type { Handling } from '../catalogue/handling.ts'
import type { Additive } from '../catalogue/additives.ts'
import type { SkinPlace } from '../order/collecting.ts'
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
  initials: 'urn:stillhand:initials',
  provider: 'urn:stillhand:provider',
  visit: 'urn:stillhand:visit',
  needle: 'urn:stillhand:needle',
  observation: 'urn:stillhand:observation',
  consent: 'urn:stillhand:consent',
  missing: 'urn:stillhand:missing',
  log: 'urn:stillhand:log',
  exception: 'urn:stillhand:exception',
} as const

/** Marks invented data, as FHIR R4 asks for test data (security label HTEST of ActReason). */
export const TEST_DATA: Coding = {
  system: 'http://terminology.hl7.org/CodeSystem/v3-ActReason',
  code: 'HTEST',
  display: 'test health data',
}

const LITHIUM_HEPARIN = v2('0371', 'HEPL', 'Lithium/Li Heparin')
const POTASSIUM_EDTA = v2('0371', 'EDTK', 'Potassium/K EDTA')
const FLUORIDE = v2('0371', 'NAF', 'Sodium Fluoride')

/**
 * Table 0371, where it has a code that says no more than is known. It has none for a clot activator in general
 * (SILICA is 12 mg of siliceous earth), for culture broth, or for ACD without its kind. `additive[x]` is 0..1 and its
 * codings must mean the same, so fluoride with oxalate has one code and the rest in its text.
 */
const ADDITIVE_CODES: Readonly<Record<Additive, Coding | undefined>> = {
  cultureAerobic: undefined,
  cultureAnaerobic: undefined,
  cultureMycobacterial: undefined,
  sps: v2('0371', 'SPS', 'SPS(this should be spelled out if not universally understood)'),
  discard: v2('0371', 'NONE', 'None'),
  citrate: v2('0371', 'C32', '3.2% Citrate'),
  ctad: v2('0371', 'CTAD', 'CTAD (this should be spelled out if not universally understood)'),
  citrateEsr: v2('0371', 'WEST', 'Buffered Citrate (Westergren Sedimentation Rate)'),
  plain: v2('0371', 'NONE', 'None'),
  traceActivator: undefined,
  activator: undefined,
  activatorGel: v2('0371', 'SST', 'Serum Separator Tube (Polymer Gel)'),
  thrombin: v2('0371', 'THROM', 'Thrombin'),
  heparinLithium: LITHIUM_HEPARIN,
  heparinLithiumGel: LITHIUM_HEPARIN,
  heparinSodium: v2('0371', 'HEPN', 'Sodium/Na Heparin'),
  heparinBalanced: undefined,
  traceEdta: POTASSIUM_EDTA,
  edtaK2: POTASSIUM_EDTA,
  edtaK3: POTASSIUM_EDTA,
  edtaK2Gel: POTASSIUM_EDTA,
  edtaAprotinin: undefined,
  fluorideOxalate: FLUORIDE,
  fluorideCitrate: FLUORIDE,
  acd: undefined,
  cellFreeDna: undefined,
  igraNil: undefined,
  igraAntigen1: undefined,
  igraAntigen2: undefined,
  igraMitogen: undefined,
  filterPaper: undefined,
}

/** An additive by its code of the table, if there is one, and our own; `text` says it whole. */
export function additiveConcept(additive: Additive, text: string): CodeableConcept {
  const coding = ADDITIVE_CODES[additive]
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

/** Table 0163 has hand and foot, not finger and heel: those stand in our own code and in words. */
export function skinSiteConcept(side: Arm, place: SkinPlace, text: string): CodeableConcept {
  const left = side === 'left'
  const named = left ? 'Left' : 'Right'
  const at: Coding =
    place === 'capillaryHeel'
      ? v2('0163', left ? 'LF' : 'RF', `${named} Foot`)
      : v2('0163', left ? 'LH' : 'RH', `${named} Hand`)
  return { coding: [at, { system: LOCAL.site, code: `${side}-${place}` }], text }
}

/** How the blood of a draw was taken, table 0488. */
export const takenBy = (collecting: SkinPlace | undefined): Coding =>
  collecting ? v2('0488', 'CAP', 'Capillary Specimen') : v2('0488', 'VENIP', 'Venipuncture')

/** Table 0487 has no code for capillary blood: it is blood there, and its text says which. */
export const bloodKind = (collecting: SkinPlace | undefined): Coding =>
  collecting ? v2('0487', 'BLD', 'Whole blood') : v2('0487', 'BLDV', 'Blood venous')

/**
 * Table 0376, special handling. Ice is asked for where warmth harms, which is "critical refrigerated: must not be
 * allowed to freeze or warm until immediately prior to testing"; its REF is for what may as well warm by accident.
 * What it has no code for stands in the words of the plan alone.
 */
const HANDLING_CODES: Readonly<Record<Handling, Coding | undefined>> = {
  light: v2('0376', 'PRTL', 'Protect from light'),
  ice: v2('0376', 'CREF', 'Critical refrigerated temperature'),
  warm: v2('0376', 'C37', 'Body temperature'),
  upright: v2('0376', 'UPR', 'Upright'),
  roomOnly: v2('0376', 'CAMB', 'Critical ambient temperature'),
  traceFree: v2('0376', 'MTLF', 'Metal Free'),
  noAir: v2('0376', 'CATM', 'Protect from air'),
  coolOptional: undefined,
  noAlcohol: undefined,
  dryFlat: undefined,
}

export const handlingCode = (mark: Handling): Coding | undefined => HANDLING_CODES[mark]

/** UCUM units. */
export function quantity(value: number, unit: 'mL' | 'h' | 's'): Quantity {
  return { value, unit, system: 'http://unitsofmeasure.org', code: unit }
}
