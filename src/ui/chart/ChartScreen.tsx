import { useEffect, useState } from 'react'
import { testInfo } from '../../app/record/testInfo.ts'
import type { CheckedLog } from '../../core/log/readStored.ts'
import { isClosed } from '../../core/protocol/isClosed.ts'
import { hasExposure } from '../../core/record/exposure.ts'
import { recordNote } from '../../core/record/recordNote.ts'
import { rulerStrip } from '../../core/record/rulerStrip.ts'
import { openingOf } from '../../core/record/openingOf.ts'
import { specimenRisks } from '../../core/record/risk.ts'
import { useActions, useApp, useRecord, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { LaterActs } from '../shared/LaterActs.tsx'
import { NoRecord } from '../shared/NoRecord.tsx'
import { PatientLine } from '../shared/PatientLine.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useToStart } from '../shared/useToStart.ts'
import { EraseRecord } from '../lock/EraseRecord.tsx'
import { BrokenRecord } from '../shared/BrokenRecord.tsx'
import { RulerStrip } from '../pictures/RulerStrip.tsx'
import { AddendumForm } from './AddendumForm.tsx'
import { NoteView } from './NoteView.tsx'
import { OriginNote } from './OriginNote.tsx'
import { RecordTools } from './RecordTools.tsx'
import { PrintHead } from './PrintHead.tsx'
import { PrintSign } from './PrintSign.tsx'
import { RecordRequest } from './RecordRequest.tsx'
import { RiskList } from './RiskList.tsx'
import { PatientLeaflet } from '../patient/PatientLeaflet.tsx'
import { LeafletTools } from '../patient/LeafletTools.tsx'
import { screenLanguage } from '../../app/site/screenLanguage.ts'
import type { Language } from '../../core/basics/language.ts'
import { replay } from '../../core/protocol/evolve.ts'
import './chart.css'

/** The record of one draw: the note, what the laboratory should know, ways to take it along, and corrections. */
export function ChartScreen({ drawId }: { readonly drawId: string }) {
  const record = useRecord(drawId)
  return record ? <Chart record={record} /> : <NoRecord />
}

function Chart({ record }: { readonly record: CheckedLog }) {
  const actions = useActions()
  const { site, page } = useServices()
  const paper = useApp((s) => s.settings.paper)
  const { chart } = useTexts().texts
  const [copied, setCopied] = useState('')
  // It stays on the paper: some browsers print only after the call.
  const [printed, setPrinted] = useState<{ readonly what: 'note' | 'request' | 'leaflet' }>()
  useEffect(() => {
    if (printed) page.print()
  }, [printed, page])
  const { drawId } = record
  const [chosen, setChosen] = useState<Language>()
  const language = chosen ?? replay(record.entries).patientLanguage ?? screenLanguage(site)
  const { testName, needsFasting } = testInfo(site.catalogue)
  const note = recordNote(record, site.texts, testName, needsFasting)
  const copy = async (): Promise<void> => {
    const done = await page.copyText(note.text)
    setCopied(done ? chart.copied : chart.notCopied)
  }
  return (
    <Frame
      title={chart.title}
      under={<PatientLine opened={openingOf(record)} />}
      back={useToStart()}
    >
      <div className={`chartScreen ${paper}`}>
        <BrokenRecord record={record} />
        <RecordTools
          drawId={drawId}
          exposure={hasExposure(record)}
          onCopy={() => void copy()}
          onPrint={(what) => setPrinted({ what })}
          said={copied}
        />
        <LeafletTools
          language={language}
          onLanguage={setChosen}
          onPrint={() => setPrinted({ what: 'leaflet' })}
        />
        <PrintHead opened={openingOf(record)} />
        <OriginNote drawId={drawId} />
        <RulerStrip strip={rulerStrip(record)} size="whole" />
        <NoteView note={note} />
        <PrintSign />
        <LaterActs drawId={drawId} />
        <RiskList risks={specimenRisks(record, site.texts.record, needsFasting, testName)} />
        {isClosed(record) && (
          <AddendumForm onAddendum={(...said) => void actions.addAddendum(drawId, ...said)} />
        )}
      </div>
      {printed?.what === 'request' && <RecordRequest record={record} />}
      {printed?.what === 'leaflet' && <PatientLeaflet record={record} language={language} />}
      <EraseRecord drawId={drawId} />
    </Frame>
  )
}
