import type { Rotor } from '../../core/bench/rcf.ts'
import type { BenchTexts } from '../site/benchTexts.ts'
import type { Settings } from '../site/settings.ts'

/** The rotor of this site. */
export const rotorOf = (settings: Settings): Rotor => ({
  places: settings.rotorPlaces,
  radius_mm: settings.rotorRadius_mm,
  angle: settings.rotorAngle,
  most_rpm: settings.rotorMost_rpm,
})

/** The rotor as it stands in the record of a spin. */
export const rotorText = (
  { rotorPlaces, rotorRadius_mm, rotorAngle }: Settings,
  { angles }: BenchTexts,
): string => `${rotorPlaces}, ${rotorRadius_mm} mm, ${angles[rotorAngle]}`
