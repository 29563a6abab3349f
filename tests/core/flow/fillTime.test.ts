import { describe, expect, it } from 'vitest'
import {
  airPressure_kPa,
  boreResistance,
  fillTime_s,
  flow_mLs,
  pathResistance,
  type FlowPath,
  type VacuumTube,
} from '../../../src/core/flow/fillTime.ts'
import { boreVolume_mL, lineVolume_mL } from '../../../src/core/flow/lineVolume.ts'
import { fillWindow } from '../../../src/core/flow/fillWindow.ts'
import { findTube } from '../../../src/core/catalogue/catalogue.ts'
import { bloodViscosity_mPas } from '../../../src/core/flow/viscosity.ts'
import { SITE, WINGED } from '../../support/planning.ts'

const PATH: FlowPath = {
  needleBore_mm: 0.514,
  needle_mm: 19,
  rearNeedle_mm: 15,
  tubing_mm: 305,
  tubingBore_mm: 1.6,
  viscosity_mPas: 3.26,
  density_kgm3: 1060,
  endLossFactor: 1.12,
  vein_kPa: 5.3,
  ambient_kPa: 101.3,
}
const TUBE: VacuumTube = { nominal_mL: 5, inner_mL: 8.4 }

/**
 * Without end losses the equation can be solved by hand. With x = inner - v the volume of air left,
 * P = ambient + vein and c = ambient (inner - nominal): t = R ∫ x / (P x - c) dx
 *   = R [x / P + (c / P²) ln(P x - c)] from x(full) to x(empty).
 */
function closedForm_s(path: FlowPath, tube: VacuumTube, upTo_mL: number): number {
  const P = (path.ambient_kPa + path.vein_kPa) * 1000
  const c = path.ambient_kPa * 1000 * (tube.inner_mL - tube.nominal_mL)
  const at = (x: number): number => x / P + (c / P ** 2) * Math.log(P * x - c)
  const R_mL = pathResistance(path) / 1e6
  return R_mL * (at(tube.inner_mL) - at(tube.inner_mL - upTo_mL))
}

/** An integrator of another kind: Runge-Kutta 4 in time, with the quadratic solved by its textbook formula. */
function rungeKutta_s(path: FlowPath, tube: VacuumTube, upTo_mL: number): number {
  const area = (Math.PI * (path.needleBore_mm / 2000) ** 2) ** 2
  const square = (2 * path.endLossFactor * path.density_kgm3) / area
  const linear = pathResistance(path)
  const rate = (v: number): number => {
    const air = (path.ambient_kPa * (tube.inner_mL - tube.nominal_mL)) / (tube.inner_mL - v)
    const drop = 1000 * (path.ambient_kPa + path.vein_kPa - air)
    return (1e6 * (-linear + Math.sqrt(linear ** 2 + 4 * square * drop))) / (2 * square)
  }
  const h = 0.001
  let v = 0
  for (let t = 0; ; t += h) {
    const k1 = rate(v)
    const k2 = rate(v + (h * k1) / 2)
    const k3 = rate(v + (h * k2) / 2)
    const next = v + (h / 6) * (k1 + 2 * k2 + 2 * k3 + rate(v + h * k3))
    if (next >= upTo_mL) return t + (h * (upTo_mL - v)) / (next - v)
    v = next
  }
}

describe('the time a tube takes to fill', () => {
  it.each([
    [0.514, 5.3, 5, 8.4],
    [0.337, 1, 2.7, 5.7],
    [0.26, 8, 8.5, 13.5],
  ])('equals the closed form without end losses (bore %s mm)', (bore, vein, nominal, inner) => {
    const path = { ...PATH, needleBore_mm: bore, vein_kPa: vein, endLossFactor: 0 }
    const tube = { nominal_mL: nominal, inner_mL: inner }
    const exact = closedForm_s(path, tube, 0.95 * nominal)
    expect(fillTime_s(path, tube, 0.95 * nominal)).toBeCloseTo(exact, 3)
  })

  it.each([0.514, 0.413, 0.337])('equals Runge-Kutta with end losses (bore %s mm)', (bore) => {
    const path = { ...PATH, needleBore_mm: bore }
    expect(fillTime_s(path, TUBE, 4.75)).toBeCloseTo(rungeKutta_s(path, TUBE, 4.75), 3)
  })

  // Made once with SciPy 1.17.1, solve_ivp(method='DOP853', rtol=1e-11, atol=1e-12) on dv/dt = flow, event at v = 95 %.
  it.each([
    [{}, TUBE, 11.27938],
    [{ needleBore_mm: 0.337 }, TUBE, 46.63695],
    [
      {
        needleBore_mm: 0.26,
        tubing_mm: 178,
        tubingBore_mm: 1.14,
        viscosity_mPas: 3.9,
        vein_kPa: 1,
      },
      { nominal_mL: 2.7, inner_mL: 5.7 },
      129.66892,
    ],
  ])('equals SciPy', (change, tube, seconds) => {
    const time = fillTime_s({ ...PATH, ...change }, tube, 0.95 * tube.nominal_mL)
    expect(time).toBeCloseTo(seconds, 3)
  })

  it('never ends when the vacuum does not reach so far', () => {
    expect(fillTime_s({ ...PATH, vein_kPa: 0 }, TUBE, 5)).toBe(Infinity)
    expect(fillTime_s(PATH, TUBE, 0)).toBe(0)
  })

  it('doubling the steps would move it by less than a millisecond: Simpson against the closed form', () => {
    const path = { ...PATH, needleBore_mm: 0.26, endLossFactor: 0 }
    expect(Math.abs(fillTime_s(path, TUBE, 4.75) - closedForm_s(path, TUBE, 4.75))).toBeLessThan(
      1e-3,
    )
  })
})

describe('the window', () => {
  const window = (gauge: 21 | 22 | 23 | 25, haematocrit_pct = 42) =>
    fillWindow(
      {
        norms: SITE.catalogue.norms,
        needleSet: { ...WINGED, gauge },
        haematocrit_pct,
        temperature_C: 37,
      },
      findTube(SITE.catalogue, 'gel5')!,
    )

  it('overlaps the 2 to 10 s for a tube that a training page gives for 21 gauge', () => {
    const { early_s, late_s } = window(21)
    expect(early_s).toBeLessThan(10)
    expect(late_s).toBeGreaterThan(2)
  })

  it('is in order and moves later with a thinner needle and thicker blood', () => {
    for (const gauge of [21, 22, 23, 25] as const) {
      const { early_s, expected_s, late_s } = window(gauge)
      expect(early_s).toBeLessThan(expected_s)
      expect(expected_s).toBeLessThan(late_s)
    }
    expect(window(23).expected_s).toBeGreaterThan(2 * window(21).expected_s)
    expect(window(21, 55).expected_s).toBeGreaterThan(window(21, 35).expected_s)
  })
})

describe('the parts of the path', () => {
  it('Poiseuille: 19 mm at 3.5 mPa s and 20 kPa gives 0.52 mL/s at 21 G and 0.03 at 25 G (calculated by hand)', () => {
    expect((1e6 * 20_000) / boreResistance(0.514, 19, 3.5)).toBeCloseTo(0.52, 2)
    expect((1e6 * 20_000) / boreResistance(0.26, 19, 3.5)).toBeCloseTo(0.03, 2)
  })

  it('resistance goes with the fourth power of the bore', () => {
    expect(boreResistance(0.5, 10, 3) / boreResistance(1, 10, 3)).toBeCloseTo(16, 9)
  })

  it('the air in a full tube is at the pressure around it', () => {
    expect(airPressure_kPa(TUBE, 5, 101.3)).toBeCloseTo(101.3, 9)
    expect(flow_mLs({ ...PATH, vein_kPa: 0 }, TUBE, 5)).toBe(0)
  })

  it('tubing holds 0.19, 0.31 and 0.61 mL at 0.9, 1.14 and 1.6 mm over 305 mm (calculated by hand)', () => {
    expect([0.9, 1.14, 1.6].map((bore) => +boreVolume_mL(bore, 305).toFixed(2))).toEqual([
      0.19, 0.31, 0.61,
    ])
    expect(lineVolume_mL(WINGED)).toBeCloseTo(0.613, 3)
    expect(lineVolume_mL({ ...WINGED, kind: 'straight' })).toBe(0)
  })

  it('viscosity passes through the published means and stays near a published semi-log line', () => {
    const { norms } = SITE.catalogue
    // Healthy adults, 37 °C: plasma 1.39, blood 3.26 mPa s at 100 /s (Rosenson 1996, as seen in a review).
    expect(bloodViscosity_mPas(norms, 0, 37)).toBeCloseTo(1.39, 6)
    expect(bloodViscosity_mPas(norms, 45, 37)).toBeCloseTo(3.26, 6)
    // log10(viscosity) = 0.01138 Hct + 0.03699, points read from Lichtman 1982 by a medical formula collection.
    for (const haematocrit of [30, 40, 50, 55]) {
      const published = 10 ** (0.01138 * haematocrit + 0.03699)
      const ours = bloodViscosity_mPas(norms, haematocrit, 37)
      expect(Math.abs(ours / published - 1)).toBeLessThan(0.15)
    }
    expect(bloodViscosity_mPas(norms, 45, 30)).toBeGreaterThan(bloodViscosity_mPas(norms, 45, 37))
  })
})
