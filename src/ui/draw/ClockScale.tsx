import { useId } from 'react'
import type { ClockView } from '../../app/view/drawViewTypes.ts'

const WIDTH = 480
/** Beyond a limit: the end that the pointer leaves the scale for. */
const BEYOND = 60

/**
 * A ruler from nothing to the limit with a mark where the clock stands. Where the limit must not be passed a hatched
 * end stands beyond it, and the pointer goes on there. Shown beside the figures, never alone.
 */
export function ClockScale({ clock }: { readonly clock: ClockView }) {
  const hatch = useId()
  const limit_ms = clock.limit_ms
  if (limit_ms === undefined || limit_ms <= 0) return null
  const hasEnd = mustNotPass(clock)
  const width = hasEnd ? WIDTH - BEYOND : WIDTH
  const gone_ms = clock.direction === 'up' ? clock.value_ms : limit_ms - clock.value_ms
  const share = Math.max(0, gone_ms / limit_ms)
  const within = Math.min(1, share) * width
  const x = hasEnd ? within + Math.min(1, Math.max(0, share - 1)) * (BEYOND - 6) : within
  const step_ms = limit_ms <= 120_000 ? 10_000 : 60_000
  const ticks = Array.from({ length: ticksIn(limit_ms, step_ms) + 1 }, (_, i) => i)
  return (
    <svg className="clockScale" viewBox={`-6 0 ${WIDTH + 12} 34`} aria-hidden="true">
      {hasEnd && (
        <>
          <pattern
            id={hatch}
            width="7"
            height="7"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <path d="M0 0V7" stroke="currentColor" strokeWidth="3" />
          </pattern>
          <rect
            x={width}
            y="12"
            width={BEYOND}
            height="14"
            className="beyond"
            fill={`url(#${hatch})`}
          />
        </>
      )}
      <line x1="0" y1="12" x2={WIDTH} y2="12" className="axis" />
      <line x1="0" y1="12" x2={x} y2="12" className="gone" />
      {ticks.map((i) => (
        <line
          key={i}
          x1={(i * step_ms * width) / limit_ms}
          x2={(i * step_ms * width) / limit_ms}
          y1="12"
          y2={i % 3 === 0 ? 26 : 20}
          className="tickMark"
        />
      ))}
      <path d={`M${x - 6} 1h12l-6 10z`} className="pointer" />
    </svg>
  )
}

/** A limit, and neither a wait that is over nor the time a tube is expected to take. */
const mustNotPass = ({ kind, direction, state }: ClockView): boolean =>
  kind !== 'fill' && direction === 'up' && state !== 'done'

/** Hours in minutes would be a gray bar. */
const MOST_TICKS = 120
const ticksIn = (limit_ms: number, step_ms: number): number => {
  const ticks = Math.floor(limit_ms / step_ms)
  return ticks > MOST_TICKS ? 0 : ticks
}
