import type { Backing } from '../policy/policy.ts'

export const RISK_CODES = [
  'bandLong',
  'fistClenched',
  'slowFill',
  'squeezed',
  'slowDrops',
  'slowPull',
  'transferLate',
  'noTransferDevice',
  'thinNeedle',
  'wetSkin',
  'infusionArm',
  'artery',
  'swelling',
  'noDiscard',
  'shortCitrate',
  'shortCulture',
  'shortTube',
  'notMixed',
  'mixedLate',
  'outOfOrder',
  'notFasting',
  'handledLate',
  'handOverOpen',
  'offTime',
  'timeUnknown',
  'doseTime',
  'sameSite',
  'overTime',
  'spunEarly',
  'spunTwice',
  'keptCold',
  'separatedLate',
  'unlabelled',
  'labelNotRead',
  'timeUncertain',
  'cardCircles',
  'cardEarly',
  'cardTransfused',
  'cardWet',
] as const
export type RiskCode = (typeof RISK_CODES)[number]

/** Where a risk comes from. Its words stand in the language files. */
export interface RiskSource {
  readonly source: string
  readonly backing: Backing
}

/** What each risk rests on. It informs; the laboratory decides. */
export const RISKS: Readonly<Record<RiskCode, RiskSource>> = {
  bandLong: {
    source:
      'Lippi 2005, Clin Chem Lab Med 43:869; Lippi 2006, Clin Lab Haematol 28:332; for potassium also Am J Kidney Dis 2000, doi 10.1053/ajkd.2000.19084',
    backing: 'read',
  },
  fistClenched: {
    source: 'Seimiya 2010, Am J Kidney Dis 56:686; N Engl J Med case report on fist clenching',
    backing: 'read',
  },
  slowFill: {
    source: 'common practice, no source',
    backing: 'commonPractice',
  },
  squeezed: {
    source:
      'squeezing or scooping hemolyzes: remote primary health care manual on skin puncture; a training page after the WHO guidelines of 2010 (both excerpts)',
    backing: 'secondHand',
  },
  slowDrops: {
    source:
      'capillary specimens clot unless collected quickly: labce.com on the order of capillary tubes (excerpt)',
    backing: 'secondHand',
  },
  slowPull: {
    source:
      'a plunger pulled too hard shuts the vein (army training course MD0533, excerpt); that it hemolyzes: a training page on venipuncture by syringe, excerpt',
    backing: 'secondHand',
  },
  transferLate: {
    source:
      'transfer promptly, before it clots in the syringe: army training course MD0533, excerpt; the time counted as late is site policy',
    backing: 'secondHand',
  },
  noTransferDevice: {
    source:
      'blood pushed by the plunger hemolyzes: labce.com blood transfer devices, excerpt; WHO guidelines on drawing blood 2010, from memory',
    backing: 'secondHand',
  },
  thinNeedle: {
    source:
      'Lippi 2006 as summarized on a training page; no more hemolysis with ultra-thin-walled 25 G: J Appl Lab Med 2017;2:201 (abstract)',
    backing: 'secondHand',
  },
  wetSkin: {
    source:
      'wet alcohol hemolyzes and stings, and skin still wet is not yet clean: training texts of the trade, second-hand',
    backing: 'secondHand',
  },
  infusionArm: {
    source:
      'Am J Clin Pathol 1988;90:702 and a trial of 1998 (abstracts): the arms differ while it runs, and for what is infused some minutes longer',
    backing: 'read',
  },
  artery: {
    source:
      'that blood of an artery differs from that of a vein in gases, ammonia, lactate: from memory',
    backing: 'fromMemory',
  },
  swelling: {
    source: 'common practice, no source',
    backing: 'commonPractice',
  },
  noDiscard: {
    source:
      'the air of the tubing, about 0.5 mL, goes into the first tube: continuing education page and a hemostasis specialist',
    backing: 'secondHand',
  },
  shortCulture: {
    source:
      'Mermel and Maki 1993, Ann Intern Med 119:270 (abstract): yield grows by about 3 % for each mL',
    backing: 'read',
  },
  shortCitrate: {
    source: 'CLSI H21, 6th edition 2024, as quoted by a hemostasis specialist',
    backing: 'read',
  },
  shortTube: {
    source: 'the least volume is the catalog row of this tube',
    backing: 'site',
  },
  notMixed: {
    source: 'mix additive tubes straight away: university laboratory collection page',
    backing: 'secondHand',
  },
  mixedLate: {
    source:
      'mix additive tubes straight away: university laboratory collection page; the time counted as late is site policy',
    backing: 'secondHand',
  },
  outOfOrder: {
    source:
      'carry-over of K2EDTA: Biochem Med 2014, PMC4210256; little effect in closed systems: Int J Environ Res Public Health 2021;18:1568',
    backing: 'read',
  },
  notFasting: {
    source: 'common practice, no source; the least time is site policy',
    backing: 'commonPractice',
  },
  handledLate: {
    source:
      'what is asked for is the catalog row of this test; that 5 min count as late is common practice, no source',
    backing: 'commonPractice',
  },
  handOverOpen: {
    source: 'the time limit is the catalog row of this test',
    backing: 'site',
  },
  offTime: {
    source:
      'each sample of a series bears its true time; what counts as late is the catalog row of the series',
    backing: 'site',
  },
  timeUnknown: {
    source:
      'each sample of a series bears its true time; what it is counted from is the catalog row of the series',
    backing: 'site',
  },
  sameSite: {
    source:
      'each set of bottles from a site of its own: labce.com, UTMB LAB000185, calgarylabservices.com (excerpts)',
    backing: 'secondHand',
  },
  doseTime: {
    source:
      'time of the last dose beside the time of the sample: laboratory test pages; the least time is the catalog row of the drug',
    backing: 'secondHand',
  },
  overTime: {
    source: 'the time limit is the catalog row of this test',
    backing: 'site',
  },
  spunEarly: {
    source: 'laboratory reference manual page: at least 30 min for gel and activator tubes',
    backing: 'secondHand',
  },
  spunTwice: {
    source:
      'gel tubes are never spun again: laboratory reference manual page; no second spin: Cancer Epidemiol Biomarkers Prev, table 2',
    backing: 'secondHand',
  },
  keptCold: {
    source:
      'whole citrated blood stays at 18 to 24 C for PT: CLSI H21-A5 as quoted; culture bottles never in the cold: common practice, no source',
    backing: 'secondHand',
  },
  separatedLate: {
    source:
      'separate from cells within 2 h of collection: several laboratory handbook pages; the time is site policy, which tests suffer is from memory',
    backing: 'secondHand',
  },
  unlabelled: {
    source: 'label containers in the presence of the patient: Joint Commission NPSG.01.01.01 EP 2',
    backing: 'read',
  },
  labelNotRead: {
    source: 'Joint Commission NPSG.01.01.01 EP 2',
    backing: 'read',
  },
  timeUncertain: {
    source: 'this record',
    backing: 'site',
  },
  cardCircles: {
    source:
      'circles not soaked through, layered or clotted are not tested: Montana newborn screening, specimen quality (excerpt)',
    backing: 'read',
  },
  cardEarly: {
    source:
      'no card under 24 h of age without a reason: med.unr.edu, newbornscreening.health.utah.gov (excerpts); the least age is site policy',
    backing: 'read',
  },
  cardTransfused: {
    source:
      'before a transfusion, or at least three clear days after it: pnsd.scot.nhs.uk, phescreening.blog.gov.uk (excerpts)',
    backing: 'read',
  },
  cardWet: {
    source:
      'dried flat for at least three hours before it is sent: slph.dph.ncdhhs.gov, newbornscreening.health.utah.gov (excerpts); the time is site policy',
    backing: 'read',
  },
}
