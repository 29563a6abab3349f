import './controls.css'

interface LevelProps {
  /** What is measured, for who cannot see it. */
  readonly name: string
  /** From 0 to 1. */
  readonly level: number
}

const WIDTH = 240
const TICKS = Array.from({ length: 21 }, (_, index) => index)

/** How loud it is, as a bar above a ruler. */
export function Level({ name, level }: LevelProps) {
  const percent = Math.round(Math.min(1, Math.max(0, level)) * 100)
  return (
    <svg
      className="level"
      role="meter"
      aria-label={name}
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={percent}
      viewBox={`0 0 ${WIDTH + 2} 30`}
      preserveAspectRatio="none"
    >
      <rect className="ground" x="1" y="1" width={WIDTH} height="16" />
      <rect className="bar" x="1" y="1" width={(WIDTH * percent) / 100} height="16" />
      {TICKS.map((tick) => (
        <line
          key={tick}
          x1={1 + (tick * WIDTH) / 20}
          x2={1 + (tick * WIDTH) / 20}
          y1="17"
          y2={tick % 5 === 0 ? 29 : 23}
        />
      ))}
    </svg>
  )
}
