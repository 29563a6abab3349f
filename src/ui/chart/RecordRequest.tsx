import { createPortal } from 'react-dom'
import { filledDraft } from '../../app/order/filledDraft.ts'
import { byLaboratory } from '../../core/catalogue/laboratories.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { factsOf } from '../../core/record/factsOf.ts'
import { labeledTubes, labelNumberOf } from '../../core/record/labeledTubes.ts'
import { dayAndTime } from '../../core/time/format.ts'
import { RequestRows } from '../plan/RequestRows.tsx'
import { RequestSigns } from '../plan/RequestSigns.tsx'
import { RequestTo } from '../plan/RequestTo.tsx'
import { RequestWho } from '../plan/RequestWho.tsx'
import { SharedTubes } from '../plan/SharedTubes.tsx'
import { useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import '../plan/request.css'

/** The request as the draw left it, a page for each laboratory: the tubes that hold blood, with number and time. */
export function RecordRequest({ record }: { readonly record: DrawLog }) {
  const { paper } = useApp((s) => s.settings)
  const { site, testName } = useServices()
  const { texts, fill } = useTexts()
  const { request, app, plan } = texts
  const facts = factsOf(record)
  const { opened } = facts
  const drawn = labeledTubes(facts)
  const collectors = [...new Set(drawn.map(({ collector }) => collector.name))]
  const pages = byLaboratory(site.laboratories, opened.order.tests)
  return createPortal(
    pages.map((part, index) => {
      const ours = drawn.filter(({ tube }) => tube.tests.some((test) => part.tests.includes(test)))
      return (
        <article
          key={part.laboratory?.id ?? ''}
          className={`requestForm seriesRequest ${paper}`}
          aria-label={request.title}
        >
          <h2>{request.title}</h2>
          {opened.invented && <p className="requestInvented">{app.invented}</p>}
          <p>{opened.site}</p>
          <RequestTo part={part} page={[index + 1, pages.length]} />
          <RequestWho draft={filledDraft(opened, opened.invented)} />
          <h3>{request.tests}</h3>
          <ul className="requestTests">
            {part.tests.map((code) => (
              <li key={code}>{testName(code)}</li>
            ))}
          </ul>
          <RequestRows rows={[[request.collectedBy, collectors.join(', ')]]} />
          <h3>{plan.tubes}</h3>
          <ol className="requestTubes">
            {ours.map(({ tube, pulled, off, on }) => (
              <li key={tube.id}>
                {[
                  fill(request.numbered, {
                    tube: tube.name,
                    number: labelNumberOf(facts, tube.id),
                  }),
                  fill(request.collected, { at: dayAndTime(pulled ?? off ?? on) }),
                  tube.tests
                    .filter((test) => part.tests.includes(test))
                    .map(testName)
                    .join(', '),
                  ...tube.handling.map((mark) => site.words.handling[mark] ?? mark),
                ].join('; ')}
              </li>
            ))}
          </ol>
          <SharedTubes tubes={ours.map(({ tube }) => tube)} here={part.laboratory} />
          <RequestSigns />
        </article>
      )
    }),
    document.body,
  )
}
