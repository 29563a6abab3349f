import { ADDITIVES, type Additive } from './additives.ts'

/**
 * The order of draw: culture, citrate, serum, heparin, EDTA, fluoride, then others by their label.
 * Order: WHO guidelines on drawing blood 2010, Table 2.3, as condensed in phlebotomy training pages; aerobic before
 * anaerobic with a winged set because the tubing's air goes into the first bottle (nursing culture guides).
 * Potassium EDTA carried over raises potassium and lowers calcium: Biochem Med 2014, PMC4210256.
 * With closed systems the effect is small (IJERPH 2021;18:1568); guidelines still require the order.
 */
export const DRAW_GROUPS = [
  'culture',
  'citrate',
  'serum',
  'heparin',
  'EDTA',
  'fluoride',
  'other',
] as const
export type GroupName = (typeof DRAW_GROUPS)[number]

/** The group an additive is drawn in. */
export const DRAW_GROUP: Readonly<Record<Additive, GroupName>> = {
  cultureAerobic: 'culture',
  cultureAnaerobic: 'culture',
  citrate: 'citrate',
  plain: 'serum',
  activator: 'serum',
  activatorGel: 'serum',
  thrombin: 'serum',
  heparinLithium: 'heparin',
  heparinLithiumGel: 'heparin',
  heparinSodium: 'heparin',
  edtaK2: 'EDTA',
  edtaK3: 'EDTA',
  edtaK2Gel: 'EDTA',
  fluorideOxalate: 'fluoride',
  fluorideCitrate: 'fluoride',
  acd: 'other',
  traceActivator: 'other',
  traceEdta: 'other',
}

/** Position of an additive's group, 0 for culture. */
export function drawGroupIndex(additive: Additive): number {
  return DRAW_GROUPS.indexOf(DRAW_GROUP[additive])
}

/**
 * Compares two additives by order of draw; negative when `a` comes first.
 * With a winged set the aerobic bottle leads; with a straight needle either may, and aerobic is kept.
 */
export function compareDraw(a: Additive, b: Additive): number {
  return drawGroupIndex(a) - drawGroupIndex(b) || ADDITIVES.indexOf(a) - ADDITIVES.indexOf(b)
}
