import type { DrawOpened } from '../../src/core/protocol/events.ts'
import { twoTubes } from '../support/drawDriver.ts'
import { samplePlan, sampleTube } from '../support/samplePlan.ts'
import { sampleOpening } from '../support/sampleLog.ts'

/** A draw of two tubes with one arm that may not be used: small enough to walk, and with every kind of step. */
export const WALKED_OPENING = sampleOpening({
  plan: {
    ...twoTubes,
    tubes: twoTubes.tubes.map((tube, i) => (i === 1 ? { ...tube, handling: ['ice'] } : tube)),
  },
  preparation: {
    anticoagulant: 'notAsked',
    restrictions: { right: 'fistula' },
  },
})

/** By a syringe and a transfer device. */
export const SYRINGE_OPENING: DrawOpened = {
  ...WALKED_OPENING,
  needleSet: { ...WALKED_OPENING.needleSet, syringe_mL: 10 },
}

/** From the heel of an infant: no band, no needle, and an arm's restriction that does not count there. */
export const HEEL_OPENING: DrawOpened = {
  ...WALKED_OPENING,
  collecting: 'capillaryHeel',
  patient: { ...WALKED_OPENING.patient, birthDate: '2025-11-01', weight_kg: 3.2 },
}

/** A newborn card of two circles and a tube, from the heel of an infant. */
export const CARD_OPENING: DrawOpened = {
  ...HEEL_OPENING,
  plan: {
    ...samplePlan([
      sampleTube('t1', 'filterPaper', {
        nominal_mL: 0.5,
        inversions: { min: 0, max: 0 },
        handling: ['dryFlat'],
      }),
      sampleTube('t2', 'edtaK2'),
    ]),
  },
  policy: {
    ...HEEL_OPENING.policy,
    limits: {
      ...HEEL_OPENING.policy.limits,
      cardCircles_n: { value: 2, source: 'for the walk', backing: 'site' },
    },
  },
}

/** The same draw of a person of whom no more may be taken than was planned: a tube that is lost needs a decision. */
export const LIMITED_OPENING: DrawOpened = {
  ...WALKED_OPENING,
  plan: {
    ...WALKED_OPENING.plan,
    blood: { ...WALKED_OPENING.plan.blood, limit_mL: WALKED_OPENING.plan.blood.draw_mL },
  },
}
