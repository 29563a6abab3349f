import { ADDITIVES, type Additive } from './additives.ts'

/**
 * The order of draw: culture, citrate, serum, heparin, EDTA, fluoride, then others by their label.
 * Order: WHO guidelines on drawing blood 2010, Table 2.3, as condensed in phlebotomy training pages; aerobic before
 * anaerobic with a winged set because the tubing's air goes into the first bottle (nursing culture guides).
 * Potassium EDTA carried over raises potassium and lowers calcium: Biochem Med 2014, PMC4210256.
 * Trace element tubes stand with their kind, serum with serum and EDTA with EDTA, each first in its group so that the
 * fewest tubes come before it (a university laboratory's collection page lists them in those groups; a dialysis
 * laboratory draws them before citrate; both read as excerpts).
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

/**
 * The order in which drops are collected: paper first, then blood gas, EDTA, other additives, serum. Gas first so that
 * little air meets it, EDTA next so that no count clots (order for capillary specimens as quoted by laboratory
 * continuing education pages, labce.com and medialabinc.net, excerpts; WHO guidelines on drawing blood 2010: blood
 * count, chemistry, blood bank, as quoted). Paper first so that no anticoagulant is carried onto it (its place in the
 * order from memory; that EDTA, citrate and heparin spoil it: newborn screening pages of Texas and Ontario, excerpts).
 */
const DROP_GROUPS = ['paper', 'gas', 'EDTA', 'additive', 'serum'] as const
export type DropGroup = (typeof DROP_GROUPS)[number]

/** The group an additive is collected in, drop by drop. */
export function dropGroup(additive: Additive): DropGroup {
  if (additive === 'filterPaper') return 'paper'
  if (additive === 'heparinBalanced') return 'gas'
  const group = DRAW_GROUP[additive]
  return group === 'EDTA' || group === 'serum' ? group : 'additive'
}

/** Compares two additives by the order of drops; negative when `a` comes first. */
export function compareDrops(a: Additive, b: Additive): number {
  return (
    DROP_GROUPS.indexOf(dropGroup(a)) - DROP_GROUPS.indexOf(dropGroup(b)) ||
    ADDITIVES.indexOf(a) - ADDITIVES.indexOf(b)
  )
}

/** The group an additive is drawn in. */
export const DRAW_GROUP: Readonly<Record<Additive, GroupName>> = {
  cultureAerobic: 'culture',
  cultureAnaerobic: 'culture',
  cultureMycobacterial: 'culture',
  sps: 'culture',
  discard: 'citrate',
  citrate: 'citrate',
  ctad: 'citrate',
  citrateEsr: 'citrate',
  plain: 'serum',
  traceActivator: 'serum',
  activator: 'serum',
  activatorGel: 'serum',
  thrombin: 'serum',
  heparinLithium: 'heparin',
  heparinLithiumGel: 'heparin',
  heparinSodium: 'heparin',
  heparinBalanced: 'heparin',
  traceEdta: 'EDTA',
  edtaK2: 'EDTA',
  edtaK3: 'EDTA',
  edtaK2Gel: 'EDTA',
  edtaAprotinin: 'EDTA',
  fluorideOxalate: 'fluoride',
  fluorideCitrate: 'fluoride',
  acd: 'other',
  cellFreeDna: 'other',
  igraNil: 'other',
  igraAntigen1: 'other',
  igraAntigen2: 'other',
  igraMitogen: 'other',
  filterPaper: 'other',
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
