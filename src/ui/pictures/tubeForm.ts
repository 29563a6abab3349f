import type { TubeShape } from '../../app/view/tubeShape.ts'

/** The outline of a drawn tube in units of which 18 are one mL, its foot at 0 and its mouth above it. */
export interface TubeForm {
  readonly width: number
  readonly height: number
  /** Path of the glass, or of the paper of a card. */
  readonly body: string
  /** Half the width in which marks stand. */
  readonly half: number
  readonly cap: { readonly width: number; readonly height: number; readonly y: number }
  /** How high so much blood stands. */
  readonly level: (volume_mL: number) => number
}

const PER_mL = 18
const CAP = 22
const HALF = 19
/** Glass is not made shorter than for so much; a smaller draw stands lower in it. */
const LEAST_mL = 4.5

/** The same scale for every shape, so that they compare by eye. */
export function tubeForm(shape: TubeShape, nominal_mL: number): TubeForm {
  switch (shape) {
    case 'tube':
      return roundTube(HALF, Math.max(LEAST_mL, nominal_mL) * PER_mL + 24, (mL) => mL * PER_mL)
    case 'micro': {
      // So narrow that what little is in it can be seen.
      const height = 52
      return roundTube(10, height, (mL) => (mL / Math.max(nominal_mL, 0.1)) * (height - 10))
    }
    case 'bottle':
      return bottle(nominal_mL)
    case 'syringe':
      return syringe(nominal_mL)
    case 'card':
      return {
        width: 92,
        height: 60,
        half: 46,
        body: 'M-46 0v-60h92v60z',
        cap: { width: 0, height: 0, y: 0 },
        level: (mL) => (mL / Math.max(nominal_mL, 0.1)) * 60,
      }
  }
}

function roundTube(half: number, glass: number, level: TubeForm['level']): TubeForm {
  const width = 2 * half
  return {
    width: width + 8,
    height: glass + CAP,
    half,
    body: `M${-half} ${-glass}h${width}v${glass - half}a${half} ${half} 0 0 1 ${-width} 0z`,
    cap: { width: width + 8, height: CAP + 4, y: -glass - CAP },
    level: (mL) => (mL > 0 ? Math.max(half * 0.5, level(mL)) : 0),
  }
}

function bottle(nominal_mL: number): TubeForm {
  const half = 36
  // As wide as it is, the same blood stands lower in it.
  const perBottle_mL = (PER_mL * HALF) / half
  const shoulder = Math.max(96, nominal_mL * perBottle_mL + 20)
  return {
    width: 2 * half,
    height: shoulder + 30 + CAP,
    half,
    body: `M${-half} ${-shoulder}q0 -20 22 -22v-8h${2 * half - 44}v8q22 2 22 22v${shoulder - 6}q0 6 -6 6h${12 - 2 * half}q-6 0 -6 -6z`,
    cap: { width: 36, height: CAP + 4, y: -shoulder - 30 - CAP },
    level: (mL) => mL * perBottle_mL,
  }
}

/** Stands on its tip, with the plunger drawn out. */
function syringe(nominal_mL: number): TubeForm {
  const half = 15
  const tip = 14
  const barrel = nominal_mL * PER_mL + 16
  return {
    width: 2 * half + 16,
    height: tip + barrel + 40,
    half,
    body: `M-4 0h8v${-tip}h${half - 4}v${-barrel}h${-2 * half}v${barrel}h${half - 4}z`,
    cap: { width: 2 * half + 16, height: 5, y: -tip - barrel - 40 },
    level: (mL) => (mL > 0 ? tip + mL * PER_mL : 0),
  }
}
