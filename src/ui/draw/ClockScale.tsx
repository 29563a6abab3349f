import type { ClockView } from '../../app/view/drawViewTypes.ts'

/** A ruler from nothing to the limit with a mark where the clock stands. Shown beside the figures, never alone. */
export function ClockScale({ clock }: { readonly clock: ClockView }) {
  const limit_ms = clock.limit_ms
  if (limit_ms === undefined || limit_ms <= 0) return null
  const width = 480
  const gone = clock.direction === 'up' ? clock.value_ms : limit_ms - clock.value_ms
  const x = Math.min(1, Math.max(0, gone / limit_ms)) * width
  const step_ms = limit_ms <= 120_000 ? 10_000 : 60_000
  const ticks = Array.from({ length: Math.floor(limit_ms / step_ms) + 1 }, (_, i) => i)
  return (
    <svg className="clockScale" viewBox={`-6 0 ${width + 12} 34`} aria-hidden="true">
      <line x1="0" y1="12" x2={width} y2="12" className="axis" />
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
