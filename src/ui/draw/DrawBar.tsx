import { Fragment } from 'react'
import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'
import { Listening } from './Listening.tsx'
import './drawBar.css'

/** The line on top: where in the draw, who is in the chair, whether it hears. */
export function DrawBar({ view }: { readonly view: DrawView }) {
  const { step } = view
  const { texts, fill } = useTexts()
  const { draw } = texts
  return (
    <header className="drawBar">
      <p className="where figures">
        {draw.step} <strong>{step.number}</strong> {fill(draw.of, { of: step.of })}
      </p>
      <p className="who">
        {view.invented && <span className="tag">{draw.invented}</span>}
        {view.patientLine.split(' · ').map((part, i) => (
          <Fragment key={part}>
            {i > 0 && ' · '}
            <span className="whole">{part}</span>
          </Fragment>
        ))}
        {view.sitting !== undefined && <strong> · {view.sitting}</strong>}
        {view.collectorName !== '' && (
          <span className="soft by"> · {fill(draw.drawnBy, { name: view.collectorName })}</span>
        )}
      </p>
      <Listening listening={view.listening} />
      <Progress number={step.number} of={step.of} />
    </header>
  )
}

/** The draw as a ruler, one graduation a step. */
function Progress({ number, of }: { readonly number: number; readonly of: number }) {
  const at = (n: number): string => `${(100 * n) / Math.max(1, of)}%`
  return (
    <svg className="progress" aria-hidden="true">
      <line x1="0" x2="100%" y1="1" y2="1" />
      <line x1="0" x2={at(number)} y1="2" y2="2" className="done" />
      {Array.from({ length: of + 1 }, (_, i) => (
        <line key={i} x1={at(i)} x2={at(i)} y1="1" y2={i === number ? 11 : 6} />
      ))}
    </svg>
  )
}
