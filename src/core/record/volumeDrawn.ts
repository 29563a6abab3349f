import type { TubeFact } from './drawFacts.ts'

/**
 * Blood taken into tubes, mL: the label's volume for a full tube, the estimate for a short one.
 * `certain` is false when a tube was short and nobody said by how much, or was never recorded as off.
 */
export function volumeDrawn(tubes: readonly TubeFact[]): {
  readonly sum_mL: number
  readonly certain: boolean
} {
  const volumes = tubes.map(tubeVolume_mL)
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
