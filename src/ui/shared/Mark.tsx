/** The sign of the app: a graduated dial with a hand at rest. */
export function Mark() {
  const ticks = [0, 30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330]
  return (
    <svg viewBox="0 0 64 64" aria-hidden="true" focusable="false">
      <circle cx="32" cy="32" r="29" fill="none" stroke="currentColor" strokeWidth="3" />
      {ticks.map((deg) => (
        <line
          key={deg}
          x1="32"
          y1="8"
          x2="32"
          y2={deg % 90 === 0 ? 15 : 12}
          stroke="currentColor"
          strokeWidth="2.5"
          transform={`rotate(${deg} 32 32)`}
        />
      ))}
      <line x1="18" y1="32" x2="50" y2="32" stroke="currentColor" strokeWidth="4" />
      <circle cx="32" cy="32" r="5" fill="currentColor" />
    </svg>
  )
}
