import { useMemo } from 'react'
import type { CheckedLog } from '../../core/log/readStored.ts'
import { rulerStrip } from '../../core/record/rulerStrip.ts'
import { isClosed } from '../../core/protocol/isClosed.ts'
import { RulerStrip } from '../pictures/RulerStrip.tsx'
import { useActions, useRecord, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { NoRecord } from '../shared/NoRecord.tsx'
import { useFigureTexts } from '../figures/useFigureTexts.ts'
import { ScoreOf } from './ScoreOf.tsx'
import './practice.css'

/** What a rehearsed draw came to against its script, point by point, with its picture. */
export function ScoreScreen({ drawId }: { readonly drawId: string }) {
  const record = useRecord(drawId)
  return record ? <Score record={record} /> : <NoRecord />
}

function Score({ record }: { readonly record: CheckedLog }) {
  const actions = useActions()
  const { scorePracticeDraw } = useServices()
  const { texts } = useFigureTexts()
  const { score: words } = texts
  const scored = useMemo(() => scorePracticeDraw(record), [scorePracticeDraw, record])
  const strip = useMemo(() => rulerStrip(record), [record])
  return (
    <Frame
      title={words.title}
      back={{ to: 'practice', onBack: () => void actions.go({ name: 'practice' }) }}
    >
      <p className="warnBox">{words.mark}</p>
      {!isClosed(record) && <p className="soft">{words.openDraw}</p>}
      {scored ? <ScoreOf scored={scored} strip={strip} /> : <p>{words.none}</p>}
      <h2>{words.picture}</h2>
      <RulerStrip strip={strip} size="whole" />
    </Frame>
  )
}
