import { twoTubes } from '../support/drawDriver.ts'
import { sampleOpening } from '../support/sampleLog.ts'

/** A draw of two tubes with one arm that may not be used: small enough to walk, and with every kind of step. */
export const WALKED_OPENING = sampleOpening({
  plan: {
    ...twoTubes,
    tubes: twoTubes.tubes.map((tube, i) => (i === 1 ? { ...tube, handling: ['ice'] } : tube)),
  },
  preparation: {
    anticoagulant: 'none',
    faintedBefore: false,
    restrictions: { right: 'fistula' },
  },
})
