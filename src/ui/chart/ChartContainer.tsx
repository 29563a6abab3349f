import { writeNote } from '../../core/record/note.ts'
import { specimenRisks } from '../../core/record/risk.ts'
import { testInfo } from '../../app/record/testInfo.ts'
import type { SiteData } from '../../app/site/siteData.ts'
import { ChartScreen } from './ChartScreen.tsx'
import { useActions, useApp } from '../shared/appContext.tsx'
import { copyText, saveText } from '../shared/leaving.ts'

/** The chart screen on the record that is open. */
export function ChartContainer({ site }: { readonly site: SiteData }) {
  const record = useApp((s) => s.record)
  const paper = useApp((s) => s.settings.paper)
  const trouble = useApp((s) => s.trouble)
  const actions = useActions()
  if (!record) return null
  const { testName, needsFasting } = testInfo(site.catalogue)
  const opened = record.entries.find(({ event }) => event.type === 'drawOpened')?.event
  const tubes = opened?.type === 'drawOpened' ? opened.plan.tubes : []
  return (
    <ChartScreen
      note={writeNote(record, site.noteTemplate, testName)}
      risks={specimenRisks(record, needsFasting)}
      tubeName={(id) => tubes.find((tube) => tube.id === id)?.name ?? id}
      paper={paper}
      closed={record.entries.some(({ event }) => event.type === 'drawClosed')}
      onCopy={copyText}
      onPrint={() => window.print()}
      onExport={(format) =>
        void actions.exportRecord(format).then((file) => file && saveText(file))
      }
      onAddendum={(text, why) => void actions.addAddendum(text, why)}
      onLabels={() => actions.go('labels')}
      onBack={() => actions.go('home')}
      trouble={trouble}
    />
  )
}
