import type { Additive } from '../../src/core/catalogue/additives.ts'
import type { Plan, PlannedTube } from '../../src/core/plan/plan.ts'
import type { Policy } from '../../src/core/policy/policy.ts'
import policyJson from '../../src/data/policy.json' with { type: 'json' }

export const samplePolicy = policyJson as unknown as Policy

const TUBES: Partial<Record<Additive, Partial<PlannedTube>>> = {
  citrate: {
    name: 'Citrate tube',
    closure: 'light blue',
    nominal_mL: 2.7,
    least_mL: 2.43,
    inversions: { min: 3, max: 4 },
  },
  activatorGel: {
    name: 'Serum gel tube',
    closure: 'gold',
    nominal_mL: 5,
    least_mL: 3,
    inversions: { min: 5, max: 10 },
    clot_min: 30,
  },
  heparinLithium: { name: 'Lithium heparin tube', closure: 'green', nominal_mL: 4, least_mL: 2 },
  edtaK2: { name: 'EDTA tube', closure: 'lavender', nominal_mL: 4, least_mL: 1 },
  fluorideOxalate: { name: 'Fluoride tube', closure: 'grey', nominal_mL: 2, least_mL: 1 },
}

/** An invented tube of the rack. */
export function sampleTube(
  id: string,
  additive: Additive,
  change: Partial<PlannedTube> = {},
): PlannedTube {
  return {
    id,
    tubeCode: `X-${additive}`,
    name: additive,
    role: 'specimen',
    additive,
    closure: 'white',
    nominal_mL: 4,
    least_mL: 2,
    inversions: { min: 8, max: 10 },
    fill: { early_s: 3, expected_s: 6, late_s: 12 },
    tests: [`test-${additive}`],
    handling: [],
    lot: `LOT-${id}`,
    expires: '2027-06-30',
    reason: 'Needed for the tests asked for.',
    ...TUBES[additive],
    ...change,
  }
}

/** An invented plan; by default a citrate, a serum gel and an EDTA tube. */
export function samplePlan(tubes?: readonly PlannedTube[]): Plan {
  const rack = tubes ?? [
    sampleTube('t1', 'citrate'),
    sampleTube('t2', 'activatorGel'),
    sampleTube('t3', 'edtaK2'),
  ]
  return {
    tubes: rack,
    problems: [],
    warnings: [],
    uncovered: [],
    blood: {
      draw_mL: rack.reduce((sum, tube) => sum + tube.nominal_mL, 0),
      earlier_mL: 0,
      source: 'invented',
    },
    band: { predicted_s: 40, offDuring: rack.at(-1)?.id },
  }
}
