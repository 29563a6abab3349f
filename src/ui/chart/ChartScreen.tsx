import { useState } from 'react'
import type { Note } from '../../core/record/note.ts'
import type { SpecimenRisk } from '../../core/record/risk.ts'
import { AddendumForm } from './AddendumForm.tsx'
import { NoteView } from './NoteView.tsx'
import { RiskList } from './RiskList.tsx'
import './chart.css'

export interface ChartScreenProps {
  readonly note: Note
  readonly risks: readonly SpecimenRisk[]
  readonly tubeName: (tubeId: string) => string
  readonly paper: 'A4' | 'letter'
  /** Only a closed draw takes addenda. */
  readonly closed: boolean
  /** Resolves to whether the text is on the clipboard. */
  readonly onCopy: (text: string) => Promise<boolean>
  readonly onPrint: () => void
  readonly onExport: (format: 'note' | 'fhir' | 'log') => void
  readonly onAddendum: (text: string, why: string) => void
  readonly onLabels: () => void
  readonly onBack: () => void
  /** Something that went wrong with the record, such as an export without a key. */
  readonly trouble?: string | undefined
}

/** The record of one draw: the note, what the laboratory should know, ways to take it along, and corrections. */
export function ChartScreen(props: ChartScreenProps) {
  const { note, risks, tubeName, paper, closed, onCopy, onExport } = props
  const [copied, setCopied] = useState('')
  const copy = async (): Promise<void> => {
    const done = await onCopy(note.text)
    setCopied(
      done ? 'Copied.' : 'This browser does not let the page copy. Select the text instead.',
    )
  }
  return (
    <main className={`chart-screen chart-screen--${paper}`}>
      <nav className="chart-tools no-print" aria-label="Record">
        <button type="button" className="button go" onClick={() => void copy()}>
          Copy as text
        </button>
        <button type="button" className="button" onClick={props.onPrint}>
          Print
        </button>
        <button type="button" className="button" onClick={props.onLabels}>
          Labels
        </button>
        <button type="button" className="button" onClick={() => onExport('note')}>
          Save note
        </button>
        <button type="button" className="button" onClick={() => onExport('fhir')}>
          Save FHIR
        </button>
        <button type="button" className="button" onClick={() => onExport('log')}>
          Save signed log
        </button>
        <button type="button" className="button" onClick={props.onBack}>
          Back
        </button>
        <p className="chart-status" role="status">
          {copied}
        </p>
      </nav>
      {props.trouble ? (
        <p className="trouble no-print" role="alert">
          {props.trouble}
        </p>
      ) : null}
      <NoteView note={note} />
      <RiskList risks={risks} tubeName={tubeName} />
      {closed ? <AddendumForm onAddendum={props.onAddendum} /> : null}
    </main>
  )
}
