/** What governs how fast a tube fills. Lengths and bores in mm, pressures in kPa. */
export interface FlowPath {
  readonly needleBore_mm: number
  readonly needle_mm: number
  /** Needle through the stopper, same bore. */
  readonly rearNeedle_mm: number
  /** 0 for a straight needle. */
  readonly tubing_mm: number
  readonly tubingBore_mm: number
  readonly viscosity_mPas: number
  readonly density_kgm3: number
  /** Loss of speed pressure at each needle, in units of density × speed² (Hagenbach factor); 0 to leave it out. */
  readonly endLossFactor: number
  /** Above the air around. */
  readonly vein_kPa: number
  readonly ambient_kPa: number
}

/** A tube's draw: it would take `nominal_mL` if filled from the air pressure around it. */
export interface VacuumTube {
  readonly nominal_mL: number
  readonly inner_mL: number
}

/** Resistance of a round bore to slow flow (Poiseuille), Pa·s/m³. */
export function boreResistance(bore_mm: number, length_mm: number, viscosity_mPas: number): number {
  const bore_m = bore_mm / 1000
  return (128 * (viscosity_mPas / 1000) * (length_mm / 1000)) / (Math.PI * bore_m ** 4)
}

/** Resistance of needle, tubing and rear needle in a row, Pa·s/m³. */
export function pathResistance(path: FlowPath): number {
  const needles_mm = path.needle_mm + path.rearNeedle_mm
  const needles = boreResistance(path.needleBore_mm, needles_mm, path.viscosity_mPas)
  if (path.tubing_mm === 0) return needles
  return needles + boreResistance(path.tubingBore_mm, path.tubing_mm, path.viscosity_mPas)
}

/**
 * Pressure of the air left in a tube that holds `blood_mL`, kPa.
 * Isothermal gas law; the first pressure is the one that makes the draw end at the nominal volume against the air.
 */
export function airPressure_kPa(tube: VacuumTube, blood_mL: number, ambient_kPa: number): number {
  return (ambient_kPa * (tube.inner_mL - tube.nominal_mL)) / (tube.inner_mL - blood_mL)
}

/** Flow into a tube that holds `blood_mL`, mL/s; 0 when the vacuum is spent. */
export function flow_mLs(path: FlowPath, tube: VacuumTube, blood_mL: number): number {
  const drop_kPa =
    path.ambient_kPa + path.vein_kPa - airPressure_kPa(tube, blood_mL, path.ambient_kPa)
  if (drop_kPa <= 0) return 0
  const drop = drop_kPa * 1000
  const linear = pathResistance(path)
  const area_m2 = (Math.PI / 4) * (path.needleBore_mm / 1000) ** 2
  const needles = path.rearNeedle_mm > 0 ? 2 : 1
  const square = (needles * path.endLossFactor * path.density_kgm3) / area_m2 ** 2
  // Drop = linear × flow + square × flow². The form below does not divide by `square`, which may be 0.
  return (1e6 * 2 * drop) / (linear + Math.sqrt(linear * linear + 4 * square * drop))
}

/** Equal steps in volume for the integral; doubling them moves no window in the tests by more than a millisecond. */
const STEPS = 256

/**
 * Seconds from first blood in the tube until it holds `upTo_mL`; `Infinity` when the vacuum does not reach so far.
 *
 * Assumes: laminar flow in round bores; speed pressure lost at the two needles; air in the tube at constant
 * temperature; no resistance of the vein, which does not collapse; blood of one viscosity at all speeds; height
 * between vein and tube ignored; line already full of blood.
 * Integrates 1/flow over the volume by Simpson's rule.
 */
export function fillTime_s(path: FlowPath, tube: VacuumTube, upTo_mL: number): number {
  if (upTo_mL <= 0) return 0
  if (flow_mLs(path, tube, upTo_mL) <= 0) return Infinity
  const step = upTo_mL / STEPS
  let sum = 0
  for (let i = 0; i <= STEPS; i++) {
    const weight = i === 0 || i === STEPS ? 1 : i % 2 === 1 ? 4 : 2
    sum += weight / flow_mLs(path, tube, i * step)
  }
  return (sum * step) / 3
}
