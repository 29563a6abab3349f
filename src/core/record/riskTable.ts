import type { Backing } from '../policy/policy.ts'

export const RISK_CODES = [
  'bandLong',
  'fistClenched',
  'slowFill',
  'thinNeedle',
  'shortCitrate',
  'shortTube',
  'notMixed',
  'mixedLate',
  'outOfOrder',
  'notFasting',
  'overTime',
  'spunEarly',
  'separatedLate',
  'labelNotRead',
  'timeUncertain',
] as const
export type RiskCode = (typeof RISK_CODES)[number]

export interface RiskWording {
  readonly title: string
  /** What to doubt, and why. */
  readonly why: string
  readonly source: string
  readonly backing: Backing
}

/** What each flag means for the specimen, with where that comes from. A flag informs; the laboratory decides. */
export const RISKS: Readonly<Record<RiskCode, RiskWording>> = {
  bandLong: {
    title: 'Tourniquet on for long',
    why: 'Doubt ALT, albumin, calcium, cholesterol, CK and iron (higher), potassium (lower), and red cells, hemoglobin and hematocrit (higher). Studies disagree on potassium.',
    source:
      'Lippi 2005, Clin Chem Lab Med 43:869; Lippi 2006, Clin Lab Haematol 28:332; for potassium also Am J Kidney Dis 2000, doi 10.1053/ajkd.2000.19084',
    backing: 'read',
  },
  fistClenched: {
    title: 'Fist clenched',
    why: 'Doubt potassium: clenching can raise it by 1 to 2 mmol/L.',
    source: 'Seimiya 2010, Am J Kidney Dis 56:686; N Engl J Med case report on fist clenching',
    backing: 'read',
  },
  slowFill: {
    title: 'Filled slowly',
    why: 'Doubt potassium, LD and AST if the plasma or serum is red: hemolysis is more likely.',
    source: 'common practice, no source',
    backing: 'commonPractice',
  },
  thinNeedle: {
    title: 'Thin needle',
    why: 'A needle of 25 G or thinner is not recommended for all draws: look for hemolysis.',
    source: 'Lippi 2006 as summarized on a training page',
    backing: 'secondHand',
  },
  shortCitrate: {
    title: 'Citrate tube filled short',
    why: 'Doubt all clotting tests: too much citrate for the blood lengthens the times. At least 90 % of the volume is asked for unless the laboratory has its own study.',
    source: 'CLSI H21, 6th edition 2024, as quoted by a hemostasis specialist',
    backing: 'read',
  },
  shortTube: {
    title: 'Filled below its least volume',
    why: 'There may be too little for the tests, and too much additive for the blood.',
    source: 'the least volume is the catalogue row of this tube',
    backing: 'site',
  },
  notMixed: {
    title: 'Mixing not recorded',
    why: 'Look for clots, or for incomplete clotting in a tube with activator. How often a tube was inverted is never in the record.',
    source: 'mix additive tubes straight away: university laboratory collection page',
    backing: 'secondHand',
  },
  mixedLate: {
    title: 'Mixed late',
    why: 'Look for clots, or for incomplete clotting in a tube with activator.',
    source:
      'mix additive tubes straight away: university laboratory collection page; the time counted as late is site policy',
    backing: 'secondHand',
  },
  outOfOrder: {
    title: 'Drawn out of order',
    why: 'Additive of the tube before may have been carried over. After potassium EDTA doubt potassium (higher), calcium, magnesium, chloride, iron and LD (lower).',
    source:
      'carry-over of K2EDTA: Biochem Med 2014, PMC4210256; little effect in closed systems: Int J Environ Res Public Health 2021;18:1568',
    backing: 'read',
  },
  notFasting: {
    title: 'Fasting not met',
    why: 'Doubt glucose and triglycerides, and whatever else the order wants fasting.',
    source: 'common practice, no source; the least time is site policy',
    backing: 'commonPractice',
  },
  overTime: {
    title: 'Handed over late',
    why: 'The time limit of a test in this tube had passed when the courier took it.',
    source: 'the time limit is the catalogue row of this test',
    backing: 'site',
  },
  spunEarly: {
    title: 'Spun before it had clotted',
    why: 'Look for fibrin: at least the clotting time of the tube is asked for.',
    source: 'laboratory reference manual page: at least 30 min for gel and activator tubes',
    backing: 'secondHand',
  },
  separatedLate: {
    title: 'Serum long on the cells',
    why: 'Doubt glucose (lower), potassium and LD (higher): cells go on living in an unspun tube.',
    source:
      'separate from cells within 2 h of collection: several laboratory handbook pages; the time is site policy, which tests suffer is from memory',
    backing: 'secondHand',
  },
  labelNotRead: {
    title: 'Label not read back',
    why: 'Identity of this specimen rests on the label alone. Containers are to be labeled in the presence of the patient.',
    source: 'Joint Commission NPSG.01.01.01 EP 2',
    backing: 'read',
  },
  timeUncertain: {
    title: 'Times uncertain',
    why: 'The clock of the device was set, or the device slept, during the draw. Times of collection may be off.',
    source: 'this record',
    backing: 'site',
  },
}
