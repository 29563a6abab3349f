import type { DrawFacts, TubeFact } from './drawFacts.ts'

/**
 * Blood taken from the patient, mL: the label's volume for a full tube, the estimate for a short one, and what was in
 * tubes that were set aside. `certain` is false when nobody said how much was in one.
 */
export function volumeDrawn({ tubes, swaps }: Pick<DrawFacts, 'tubes' | 'swaps'>): {
  readonly sum_mL: number
  readonly certain: boolean
} {
  const lost = [...swaps.values()].flat().map(({ blood_mL }) => blood_mL)
  const volumes = [...tubes.map(tubeVolume_mL), ...lost]
  return {
    sum_mL: volumes.reduce((sum: number, volume) => sum + (volume ?? 0), 0),
    certain: volumes.every((volume) => volume !== undefined),
  }
}

/** Blood in one tube, mL; `undefined` when it is not known. */
export function tubeVolume_mL(tube: TubeFact): number | undefined {
  if (tube.fill === 'full') return tube.estimate_mL ?? tube.tube.nominal_mL
  if (tube.fill === 'empty') return 0
  return tube.estimate_mL
}
