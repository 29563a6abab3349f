import { useActions, useApp } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { useToStart } from '../shared/useToStart.ts'
import { LeftPart } from './LeftPart.tsx'
import { OrdersPart } from './OrdersPart.tsx'
import { RowsPart } from './RowsPart.tsx'
import { StatePart } from './StatePart.tsx'
import { useHandOverTexts } from './useHandOverTexts.ts'
import './handOver.css'

/** What goes to the site's record server and what comes from there. Nobody is named on it: draws by their numbers. */
export function HandOverScreen() {
  const { state, rows } = useApp((s) => s.handOver)
  const draws = useApp((s) => s.draws)
  const { handOver } = useActions()
  const { texts, fill } = useHandOverTexts()
  const back = useToStart()
  const inOrder = rows.toSorted((a, b) => a.since_ms - b.since_ms)
  const refused = inOrder.filter((row) => row.state === 'refused')
  const kept = inOrder.filter(({ state: s }) => ['earlier', 'dropped', 'broughtIn'].includes(s))
  const open = draws.filter(({ closed, invented }) => !closed && !invented)
  return (
    <Frame title={texts.title} back={back}>
      <p className="lead">{texts.about}</p>
      <div className="handOverParts">
        <StatePart />
        {state !== 'none' && state !== 'unread' && (
          <>
            <RowsPart part="refused" rows={refused}>
              {refused.length > 1 && (
                <button type="button" className="button" onClick={() => void handOver.againAll()}>
                  {texts.againAll}
                </button>
              )}
            </RowsPart>
            <RowsPart part="waiting" rows={inOrder.filter((row) => row.state === 'waiting')}>
              {open.length > 0 && <p>{fill(texts.stillOpen, { n: open.length })}</p>}
            </RowsPart>
            <OrdersPart />
            <LeftPart />
            <RowsPart part="kept" rows={kept}>
              {kept.some((row) => row.state === 'earlier') && (
                <button
                  type="button"
                  className="button"
                  onClick={() => void handOver.sendEarlier()}
                >
                  {texts.sendEarlier}
                </button>
              )}
            </RowsPart>
          </>
        )}
      </div>
    </Frame>
  )
}
