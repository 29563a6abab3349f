import type { TubeStatus } from '../../app/site/words.ts'
import type { RackTubeView } from '../../app/view/drawViewTypes.ts'
import { closureColor } from '../shared/closureColor.ts'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'
import './rackStrip.css'

/** How full the little picture is. A hint only: the status stands in words. */
const FILLED: Readonly<Record<TubeStatus, number>> = {
  waiting: 0,
  next: 0,
  on: 0.5,
  mix: 0.85,
  mixed: 0.85,
  short: 0.4,
  empty: 0,
  leftOut: 0,
}

function TubeGlyph({ tube }: { readonly tube: RackTubeView }) {
  const height = 30 * FILLED[tube.status]
  const color = closureColor(tube.closure)
  return (
    <svg viewBox="0 0 20 52" className="glyph" aria-hidden="true">
      <path d="M4 12h12v30a6 6 0 0 1-12 0z" className="glass" />
      {height > 0 && (
        <path d={`M4 ${46 - height}h12v${height - 4}a6 6 0 0 1-12 0z`} className="blood" />
      )}
      <rect
        x="2"
        y="2"
        width="16"
        height="10"
        rx="2"
        className="cap"
        {...(color && { fill: color })}
      />
    </svg>
  )
}

/** The tubes in order of draw with how each stands. */
export function RackStrip({ rack }: { readonly rack: readonly RackTubeView[] }) {
  const { texts } = useTexts()
  const { mL } = useUnits()
  if (rack.length === 0) return null
  const current = rack.find((t) => t.status === 'on') ?? rack.find((t) => t.status === 'next')
  return (
    <ol className="bare rackStrip" aria-label={texts.draw.rack}>
      {rack.map((tube, i) => (
        <li
          key={tube.id}
          className={tube.status}
          {...(tube === current && { 'aria-current': 'step' })}
        >
          <TubeGlyph tube={tube} />
          <span className="what">
            <span className="name">
              {i + 1}. {tube.name}
            </span>
            <span className="status">
              {tube.statusText} <span className="amount figures">· {mL(tube.fill_mL)}</span>
            </span>
          </span>
        </li>
      ))}
    </ol>
  )
}
