import { labelsFor } from '../../core/record/labels.ts'
import { LabelsScreen } from './LabelsScreen.tsx'
import { useActions, useApp } from '../shared/appContext.tsx'

/** The label screen on the record that is open, or on the draw that is running. */
export function LabelsContainer() {
  const record = useApp((s) => s.record)
  const running = useApp((s) => s.draw !== undefined && !s.draw.closed)
  const paper = useApp((s) => s.settings.paper)
  const actions = useActions()
  if (!record) return null
  return (
    <LabelsScreen
      labels={labelsFor(record)}
      paper={paper}
      onPrint={() => window.print()}
      onBack={() => actions.go(running ? 'draw' : 'chart')}
    />
  )
}
