import type { RotorPlace } from '../../core/bench/spinRuns.ts'
import { useBenchTexts } from './useBenchTexts.ts'

const SIZE = 320
const RING = 128

/** The rotor from above, place 1 at the top, clockwise. The list beside it says the same. */
export function RotorPicture({ places }: { readonly places: readonly RotorPlace[] }) {
  const { bench, fill } = useBenchTexts()
  const round = Math.min(17, (Math.PI * RING) / places.length - 2)
  return (
    <svg
      className="rotor"
      viewBox={`0 0 ${SIZE} ${SIZE}`}
      role="img"
      aria-label={fill(bench.runs.picture, { n: places.length })}
    >
      <circle cx={SIZE / 2} cy={SIZE / 2} r={RING + 26} className="rotorEdge" />
      <circle cx={SIZE / 2} cy={SIZE / 2} r={9} className="rotorAxle" />
      {places.map((place, nth) => {
        const turn = (2 * Math.PI * nth) / places.length
        const x = SIZE / 2 + RING * Math.sin(turn)
        const y = SIZE / 2 - RING * Math.cos(turn)
        return (
          <g key={`place ${String(nth + 1)}`} className={`rotorPlace ${place.kind}`}>
            <circle cx={x} cy={y} r={round} />
            <text x={x} y={y} textAnchor="middle" dominantBaseline="central" fontSize={round}>
              {place.kind === 'blank' ? 'B' : nth + 1}
            </text>
          </g>
        )
      })}
    </svg>
  )
}
