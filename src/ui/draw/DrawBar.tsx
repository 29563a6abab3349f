import { Fragment } from 'react'
import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'
import { ClinicMark } from '../clinic/ClinicMark.tsx'
import { DrawRuler } from '../pictures/DrawRuler.tsx'
import { Listening } from './Listening.tsx'
import './drawBar.css'

interface DrawBarProps {
  readonly view: DrawView
  readonly isHeldOnly: boolean
}

/** The line on top: where in the draw, who is in the chair, whether it hears. */
export function DrawBar({ view, isHeldOnly }: DrawBarProps) {
  const { texts, fill } = useTexts()
  const { draw } = texts
  return (
    <header className="drawBar">
      <p className="where figures">
        <strong>{view.ruler.where}</strong>
      </p>
      <p className="who">
        {view.isTonesOnly && <span className="tag">{draw.tonesOnly}</span>}
        {view.invented && <span className="tag">{draw.invented}</span>}
        {view.patientLine.split(' · ').map((part, i) => (
          <Fragment key={i}>
            {i > 0 && ' · '}
            <span className="whole">{part}</span>
          </Fragment>
        ))}
        {view.sitting !== undefined && <strong> · {view.sitting}</strong>}
        {view.collectorName !== '' && (
          <span className="soft by"> · {fill(draw.drawnBy, { name: view.collectorName })}</span>
        )}
        <ClinicMark />
      </p>
      <Listening listening={view.listening} isHeldOnly={isHeldOnly} />
      <DrawRuler ruler={view.ruler} />
    </header>
  )
}
