import type { Plan, PlannedTube } from '../../src/core/plan/plan.ts'

/** Invented racks for the screens. */

const tube = (id: string, more: Partial<PlannedTube>): PlannedTube => ({
  id,
  tubeCode: id,
  name: 'Serum gel tube',
  role: 'specimen',
  additive: 'activatorGel',
  closure: 'gold',
  nominal_mL: 5,
  least_mL: 3.5,
  inversions: { min: 5, max: 6 },
  fill: { early_s: 8, expected_s: 10, late_s: 14 },
  tests: [],
  handling: [],
  reason: 'It serves three tests with one tube.',
  ...more,
})

export const PLAN: Plan = {
  tubes: [
    tube('t1', {
      name: 'Culture bottle, aerobic',
      role: 'culture',
      additive: 'cultureAerobic',
      closure: 'blue',
      nominal_mL: 8,
      least_mL: 5,
      inversions: { min: 3, max: 4 },
      tests: ['BCUL'],
      fill: { early_s: 14, expected_s: 18, late_s: 25 },
      reason: 'Cultures come first so that nothing from another tube reaches the broth.',
    }),
    tube('t2', {
      name: 'Discard tube',
      role: 'discard',
      additive: 'plain',
      closure: 'white',
      nominal_mL: 3,
      least_mL: 0,
      inversions: { min: 0, max: 0 },
      fill: { early_s: 2, expected_s: 3, late_s: 5 },
      reason: 'The winged set’s tubing holds air that would leave the citrate tube short.',
    }),
    tube('t3', {
      name: 'Citrate tube',
      additive: 'citrate',
      closure: 'light blue',
      nominal_mL: 2.7,
      least_mL: 2.43,
      inversions: { min: 3, max: 4 },
      tests: ['PT'],
      fill: { early_s: 5, expected_s: 6, late_s: 9 },
      handling: ['upright'],
      reason: 'Coagulation needs citrated plasma in its own tube. It must be filled to the line.',
    }),
    tube('t4', { tests: ['GLU', 'CREA', 'TSH'], clot_min: 30, lot: 'X200', expires: '2027-03-01' }),
    tube('t5', {
      name: 'EDTA tube',
      additive: 'edtaK2',
      closure: 'lavender',
      nominal_mL: 3,
      least_mL: 1,
      inversions: { min: 8, max: 10 },
      tests: ['CBC', 'A1C'],
      fill: { early_s: 5, expected_s: 7, late_s: 10 },
      handling: ['ice', 'light'],
      timeLimit_min: 30,
    }),
  ],
  problems: [],
  warnings: [
    {
      code: 'bandTooLong',
      text: 'With the band on throughout, the last tube would be full after 58 s. Take it off early.',
      source: 'common practice, no source',
    },
  ],
  uncovered: [],
  blood: {
    draw_mL: 21.7,
    earlier_mL: 0,
    limit_mL: 150,
    period_mL: 450,
    bodyVolume_mL: 4200,
    percentOfBody: 0.52,
    source: 'An invented limit for the gallery.',
  },
  band: { predicted_s: 58, offDuring: 't3' },
}

export const STOPPED_PLAN: Plan = {
  ...PLAN,
  tubes: [],
  problems: [
    { code: 'bothArms', text: 'Both arms have a restriction. Ask the provider where to draw.' },
    { code: 'uncovered', text: 'Every EDTA tube on hand is past its date.' },
  ],
  warnings: [],
  uncovered: [{ test: 'CBC', reason: 'no EDTA tube that is in date.' }],
}
