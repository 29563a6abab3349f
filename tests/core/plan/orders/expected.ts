import type { PlanNoticeCode } from '../../../../src/core/plan/planTexts.ts'

/**
 * What somebody who draws blood for a living and a laboratory expect of an order, and why. Judged by an outside review
 * of the trade; where a reason names no source it is common practice.
 */
export interface Expected {
  readonly why: string
  /** Tubes in order of draw: additive, `ice` or `warm` where kept so, and its tests; a discard tube is `discard`. */
  readonly tubes: readonly string[]
  /** Draws that follow with a needle of their own, each with its tubes. */
  readonly later?: readonly (readonly string[])[]
  /** What a named provider has to decide before the draw opens. */
  readonly stops?: readonly PlanNoticeCode[]
  /** What is worth reading before the needle; nothing else may be said there. */
  readonly warns?: readonly string[]
  /** Most blood of the first draw, mL, where an expert would count it. */
  readonly most_mL?: number
}

const GEL_BMP = 'activatorGel: bmp'
const CBC = 'edtaK2: cbc'
const ROUTINE = 'serum gel, then EDTA, and nothing to say'

export const EXPECTED: Readonly<Record<string, Expected>> = {
  'coagulation-chemistry-cbc-straight': {
    why: 'citrate, serum, EDTA; a straight needle brings no air and needs no discard tube',
    tubes: ['citrate: aptt pt', 'activatorGel: cmp', 'edtaK2: cbcDiff'],
  },
  'coagulation-chemistry-cbc-winged': {
    why: 'the tubing holds air: a discard tube goes before citrate (laboratory collection pages)',
    tubes: ['discard', 'citrate: aptt pt', 'activatorGel: cmp', 'edtaK2: cbcDiff'],
  },
  'child-12kg': {
    why: 'small tubes within 1 % of the blood volume (Howie 2011), nothing to stop at',
    tubes: ['activatorGel: cmp crp', 'edtaK2: cbcDiff'],
    most_mL: 8.4,
  },
  'newborn-bilirubin-cbc': {
    why: 'micro-collection tubes: an everyday order in a newborn must not be blocked',
    tubes: ['activatorGel: bilirubinDirect bilirubinTotal', CBC],
    // From a vein such tubes want a syringe and a transfer device, which is worth knowing before the needle.
    warns: ['bring'],
    most_mL: 2.5,
  },
  'cultures-lactate': {
    why: 'cultures, citrate, plasma because it is stat and need not clot, EDTA, iced fluoride',
    tubes: [
      'cultureAerobic: bloodCultureAerobic',
      'cultureAnaerobic: bloodCultureAnaerobic',
      'citrate: pt',
      'heparinLithiumGel: cmp',
      'edtaK2: cbcDiff',
      'fluorideOxalate ice: lactate',
    ],
    warns: ['bring'],
  },
  'two-culture-sets': {
    why: 'two sets are two venipunctures, each bottle labeled with its site (labce.com; UTMB LAB000185)',
    tubes: ['cultureAerobic: bloodCultureAerobic', 'cultureAnaerobic: bloodCultureAnaerobic'],
    later: [['cultureAerobic: bloodCultureAerobic', 'cultureAnaerobic: bloodCultureAnaerobic']],
  },
  'interferon-gamma': {
    why: 'one lithium heparin tube, never sodium heparin; the set of four tubes is ordered by its own codes (labce.com)',
    tubes: ['heparinLithium: igra'],
  },
  'type-screen-crossmatch': {
    why: 'group and crossmatch share one sample; a second sample is another puncture (Barnsley Hospital)',
    tubes: ['edtaK2: bloodGroup crossmatch', CBC],
  },
  'trace-elements': {
    why: 'the trace serum tube stands with serum, the trace EDTA tube with EDTA (University of Chicago laboratories)',
    tubes: ['traceActivator: copper zinc', 'activatorGel: cmp', 'traceEdta: leadBlood', CBC],
  },
  'glucose-tolerance': {
    why: 'a fasting and a later glucose are two draws with their times (nchlab test catalog GTT2HR75)',
    tubes: ['fluorideOxalate: glucoseFasting'],
    later: [['fluorideOxalate: glucose']],
  },
  ammonia: {
    why: 'ammonia by itself on ice, 15 min to the centrifuge (rchsd.org laboratory page)',
    tubes: ['activatorGel: cmp', 'edtaK2 ice: ammonia', CBC],
    warns: ['bring'],
  },
  oncology: {
    why: '27 tests in few tubes: chemistry in one 10 mL serum tube, one salt of EDTA, serology apart, ACTH on ice',
    tubes: [
      'discard',
      'citrate: aptt dDimer fibrinogen pt',
      'activator: cmp cortisol crp ferritin folate freeT4 hcgBeta iron ldh magnesium phosphate psa spep transferrin tsh uricAcid vitaminB12',
      'activatorGel: hbsAg hcvAb hivAgAb',
      'edtaK2 ice: acth',
      'edtaK2: bloodGroup',
      'edtaK2: cbcDiff',
    ],
    warns: ['bring'],
    most_mL: 32,
  },
  'both-arms': {
    why: 'a provider decides which arm (doi 10.1007/s10549-015-3639-1); the draw is not lost',
    tubes: ['activatorGel: cmp', CBC],
    stops: ['bothArms'],
  },
  'heparin-aptt': {
    why: 'one citrate tube after a discard tube; 60 min under heparin (CLSI H21)',
    tubes: ['discard', 'citrate: antiXa aptt', CBC],
  },
  'high-hematocrit': {
    why: 'above 55 % the laboratory gives an adjusted citrate tube (CLSI H21)',
    tubes: ['citrate: aptt pt', CBC],
    warns: ['citrateHaematocrit'],
  },
  'hand-23-gauge': {
    why: 'a winged 23 gauge in the hand of an old person is right: nothing to warn of',
    tubes: ['discard', 'citrate: pt', 'activatorGel: cmp', CBC],
  },
  'hand-25-gauge': {
    why: '25 gauge is thinner than advised for an adult (Lippi 2006, as summarized) and so slow that one tube takes the minute',
    tubes: ['discard', 'citrate: pt', 'activatorGel: cmp', CBC],
    warns: ['gauge', 'bandTooLong'],
  },
  'old-anemia': {
    why: 'the known hematocrit of 26 % gives more serum: two small tubes do',
    tubes: [
      'activatorGel: creatinine crp ferritin folate iron ldh transferrin vitaminB12',
      'edtaK2: cbcDiff reticulocytes',
    ],
    most_mL: 5.5,
  },
  expired: {
    why: 'the expired lot is not used, what it leaves out is named and a provider decides',
    tubes: [GEL_BMP],
    stops: ['uncovered'],
    warns: ['expiredLot'],
  },
  'short-stock': {
    why: 'a missing tube stops only its own tests; the rest may be drawn when a provider says so',
    tubes: ['citrate: pt', GEL_BMP, 'edtaK2: cbc hba1c'],
    stops: ['uncovered', 'noDiscardTube'],
  },
  ethanol: {
    why: 'no alcohol on the skin (rchsd.org, promedica laboratory pages)',
    tubes: ['fluorideOxalate: ethanol', 'fluorideOxalate: glucose'],
    warns: ['noAlcohol'],
  },
  'glucose-only': { why: 'one fluoride tube', tubes: ['fluorideOxalate: glucose'] },
  'cbc-child-winged-first': {
    why: 'the tube still holds more than two thirds after the air of the tubing (Lippi 2023: reject EDTA below 67 %)',
    tubes: [CBC],
  },
  'sodium-only': { why: 'one serum tube', tubes: ['activatorGel: sodium'] },
  'drug-levels': {
    why: 'drug levels without gel; when the last dose was matters (Aust Prescr: digoxin 6 h, lithium 12 h)',
    tubes: ['activator: digoxin lithium phenytoin vancomycin', 'edtaK2: tacrolimus'],
    warns: ['timing'],
  },
  'lipids-not-fasting': {
    why: 'fasting is not routinely required (EAS/EFLM 2016), and an adult gets no child tube',
    tubes: ['activatorGel: lipidPanel', 'edtaK2: hba1c'],
  },
  cryoglobulins: {
    why: 'a warmed plain tube kept at 37 C, fasting preferred (umc.edu laboratory page, seekhealthz)',
    tubes: ['plain warm: cryoglobulins', 'activatorGel: cmp', CBC],
    warns: ['bring', 'fasting'],
  },
  antenatal: {
    why: 'serology in serum, the group in a tube of its own',
    tubes: [
      'activatorGel: hbsAg hivAgAb rubellaIgG syphilisAb',
      'activatorGel: hcgBeta tsh',
      'edtaK2: bloodGroup',
      CBC,
    ],
  },
  'septic-infant': {
    why: 'culture and small tubes; 1 to 5 % a day is in the guidelines (Howie 2011), so it is told and not blocked',
    tubes: ['cultureAerobic: bloodCultureChild', 'activatorGel: bmp crp', 'edtaK2: cbcDiff'],
    warns: ['bring'],
    most_mL: 5.25,
  },
  'inpatient-cumulative': {
    why: `an adult in care has no research limit; ${ROUTINE}`,
    tubes: [GEL_BMP, CBC],
  },
  'adult-second-visit': {
    why: `an adult in care has no research limit; ${ROUTINE}`,
    tubes: [GEL_BMP, CBC],
  },
  'adult-546-mL-before': {
    why: `an adult in care has no research limit; ${ROUTINE}`,
    tubes: [GEL_BMP, CBC],
  },
  'child-coagulation-winged': {
    why: 'discard tube, then citrate',
    tubes: ['discard', 'citrate: aptt pt'],
  },
  'ionized-calcium-pth': {
    why: 'PTH is steadier in EDTA (Hanon 2013, doi 10.1515/cclm-2013-0315); ionized calcium by itself',
    tubes: [
      'activatorGel: calcium phosphate vitaminD',
      'heparinBalanced: ionizedCalcium',
      'edtaK2: pth',
    ],
  },
  'renin-acth': {
    why: 'ACTH on ice, renin not chilled (laboratory pages): two EDTA tubes',
    tubes: ['activatorGel: cortisol potassium', 'edtaK2 ice: acth', 'edtaK2: renin'],
    warns: ['bring'],
  },
  'bilirubin-folate-light': {
    why: 'one serum tube kept from light, with something in reserve',
    tubes: ['activatorGel: bilirubinTotal cmp folate vitaminA'],
  },
  'viral-load-hla': {
    why: 'molecular EDTA apart from the count, ACD last',
    tubes: ['edtaK2: hivViralLoad', 'edtaK2: cbcDiff', 'acd: hlaTyping'],
  },
  'before-surgery': {
    why: 'discard, citrate, serum, the group in a tube of its own, count',
    tubes: ['discard', 'citrate: aptt pt', 'activatorGel: bmp hcgBeta', 'edtaK2: bloodGroup', CBC],
  },
  'fluoride-lactate-glucose': {
    why: 'ice does glucose no harm, so it goes with lactate in one tube',
    tubes: ['fluorideOxalate ice: glucose lactate'],
    warns: ['bring'],
  },
  'older-person-warfarin': { why: 'discard tube, then citrate', tubes: ['discard', 'citrate: pt'] },
  'esr-hba1c-cbc': {
    why: 'one EDTA tube with something in reserve',
    tubes: ['edtaK2: cbcDiff esr hba1c reticulocytes'],
  },
  'factor8-proteinS': {
    why: 'all in citrate: two tubes',
    tubes: ['citrate: aptt dDimer fibrinogen proteinS pt', 'citrate: factorVIII'],
  },
  'troponin-stat': {
    why: 'plasma because it is stat and need not clot',
    tubes: ['heparinLithiumGel: bmp troponin', CBC],
  },
  'newborn-1500-g': {
    why: 'a micro-collection tube: a 1 mL vacuum tube on tubing would hold 39 % (calculated)',
    tubes: [CBC],
    warns: ['bring'],
    most_mL: 0.6,
  },
  'pth-only': { why: 'PTH in EDTA (Hanon 2013)', tubes: ['edtaK2: pth'] },
  serology: { why: 'serology in serum', tubes: ['activatorGel: hbsAg hcvAb hivAgAb syphilisAb'] },
  'teenager-chemotherapy': {
    why: 'no research limit in care: 60 mL earlier is 2 % of her blood volume, 10 % in 8 weeks are in guidelines (Howie 2011)',
    tubes: [
      'discard',
      'citrate: aptt fibrinogen pt',
      'activatorGel: cmp ldh magnesium phosphate uricAcid',
      'edtaK2: bloodGroup',
      'edtaK2: cbcDiff',
    ],
  },
  'unknown-test': {
    why: 'the test is named as unknown and the rest is planned',
    tubes: [CBC],
    stops: ['uncovered'],
  },
  'child-5-y-workup': {
    why: 'a child of 18 kg: least volumes of chemistry, release assay, count and sedimentation',
    tubes: [
      'activatorGel: cmp crp ferritin freeT4 tsh vitaminD',
      'heparinLithium: igra',
      'edtaK2: cbcDiff esr',
    ],
    warns: ['muchBlood'],
    most_mL: 13,
  },
  'cultures-straight': {
    why: 'aerobic and anaerobic bottle to their mark, then EDTA',
    tubes: ['cultureAerobic: bloodCultureAerobic', 'cultureAnaerobic: bloodCultureAnaerobic', CBC],
  },
  'latex-and-fainting': {
    why: 'latex and a faint earlier are said before the needle',
    tubes: [GEL_BMP, CBC],
    warns: ['latex', 'faintedBefore'],
  },
  'pt-winged-25-gauge': {
    why: 'discard tube, then citrate; 25 gauge is thinner than advised, and one tube takes the minute',
    tubes: ['discard', 'citrate: pt'],
    warns: ['gauge', 'bandTooLong'],
  },
  'light-ice-mix': {
    why: 'ammonia, ACTH and homocysteine never in gel; ammonia by itself, 15 min to the centrifuge; lactate in iced fluoride',
    tubes: [
      'edtaK2 ice: acth homocysteine',
      'edtaK2: cbc hba1c',
      'edtaK2 ice: ammonia',
      'fluorideOxalate ice: lactate',
    ],
    warns: ['bring'],
  },
  'child-leukemia-weekly': {
    why: 'weekly counts in leukemia: 44 mL in 8 weeks are 4 % of 1.1 L, no research limit in care',
    tubes: ['activatorGel: cmp', 'edtaK2: cbcDiff'],
  },
  'no-weight-child': {
    why: 'a child without a weight: no limit can be worked out, somebody decides',
    tubes: [CBC],
    stops: ['weightMissing'],
  },
  'just-18': { why: ROUTINE, tubes: ['activatorGel: cmp', CBC] },
  'stat-thrombin-on-hand': {
    why: 'folate needs serum, so both go in one serum tube',
    tubes: ['activatorGel: cmp folate'],
  },
  'group-only-child': {
    why: 'group and count of a child of 9.5 kg within 1 %',
    tubes: ['edtaK2: bloodGroup', CBC],
    most_mL: 6.65,
  },
}
