import { ADDITIVES, type Additive } from './additives.ts'

/** A step of the order of draw and why it stands there. */
export interface DrawGroup {
  readonly name: string
  readonly additives: readonly Additive[]
  readonly why: string
}

/**
 * The order of draw: culture, citrate, serum, heparin, EDTA, fluoride, then others by their label.
 * Order: WHO guidelines on drawing blood 2010, Table 2.3, as condensed in phlebotomy training pages; aerobic before
 * anaerobic with a winged set because the tubing's air goes into the first bottle (nursing culture guides).
 * Potassium EDTA carried over raises potassium and lowers calcium: Biochem Med 2014, PMC4210256.
 * With closed systems the effect is small (IJERPH 2021;18:1568); guidelines still require the order.
 */
export const DRAW_GROUPS: readonly DrawGroup[] = [
  {
    name: 'culture',
    additives: ['cultureAerobic', 'cultureAnaerobic'],
    why: 'Culture bottles come first so that nothing from another tube reaches them.',
  },
  {
    name: 'citrate',
    additives: ['citrate'],
    why: 'Citrate comes before any clot activator, which would spoil clotting tests.',
  },
  {
    name: 'serum',
    additives: ['plain', 'activator', 'activatorGel', 'thrombin'],
    why: 'Serum comes before heparin and EDTA so that no anticoagulant is carried into it.',
  },
  {
    name: 'heparin',
    additives: ['heparinLithium', 'heparinLithiumGel', 'heparinSodium'],
    why: 'Heparin comes before EDTA, whose potassium would falsify chemistry.',
  },
  {
    name: 'EDTA',
    additives: ['edtaK2', 'edtaK3', 'edtaK2Gel'],
    why: 'EDTA comes late because its potassium and its binding of calcium falsify other tubes.',
  },
  {
    name: 'fluoride',
    additives: ['fluorideOxalate', 'fluorideCitrate'],
    why: 'Fluoride comes after EDTA because it stops enzymes that other tests measure.',
  },
  {
    name: 'other',
    additives: ['acd', 'traceActivator', 'traceEdta'],
    why: 'Special tubes come last unless their label says otherwise.',
  },
]

/** Position of an additive's group, 0 for culture. */
export function drawGroupIndex(additive: Additive): number {
  return DRAW_GROUPS.findIndex((group) => group.additives.includes(additive))
}

export function drawGroup(additive: Additive): DrawGroup {
  const group = DRAW_GROUPS[drawGroupIndex(additive)]
  if (!group) throw new RangeError(`No place in the order of draw for ${additive}`)
  return group
}

/**
 * Compares two additives by order of draw; negative when `a` comes first.
 * With a winged set the aerobic bottle leads; with a straight needle either may, and aerobic is kept.
 */
export function compareDraw(a: Additive, b: Additive): number {
  return drawGroupIndex(a) - drawGroupIndex(b) || ADDITIVES.indexOf(a) - ADDITIVES.indexOf(b)
}
