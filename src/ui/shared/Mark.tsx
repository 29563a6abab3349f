/** The sign of the app, the same as its icons: a needle at rest above a ruler, tilted within a ring. */
export function Mark() {
  return (
    <svg viewBox="0 0 64 64" aria-hidden="true" focusable="false">
      <g fill="none" stroke="currentColor" strokeLinecap="round">
        <circle cx="32" cy="32" r="29" strokeWidth="3" />
        <g transform="translate(32 32) rotate(-32) scale(1.26)">
          <path d="M-15 6H15" strokeWidth="2" />
          <path d="M-12 6V12M0 6V12M12 6V12M-8 6V9.5M-4 6V9.5M4 6V9.5M8 6V9.5" strokeWidth="2" />
          <path d="M-11 -2H15" strokeWidth="4" />
          <circle cx="-11" cy="-2" r="4" fill="currentColor" strokeWidth="0" />
        </g>
      </g>
    </svg>
  )
}
