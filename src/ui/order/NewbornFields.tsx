import { isCard } from '../../core/plan/plan.ts'
import { FEEDINGS } from '../../core/order/order.ts'
import { findTest } from '../../core/catalogue/catalogue.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { DraftInput, DraftSelect } from './DraftInput.tsx'

/** What goes with a newborn card, where one is ordered. Left open it is asked at the cot, or charted as not asked. */
export function NewbornFields() {
  const tests = useApp((s) => s.draft.tests)
  const { site } = useServices()
  const { order } = useTexts().texts
  const isOrdered = tests.some((code) => findTest(site.catalogue, code)?.accepts.some(isCard))
  if (!isOrdered) return null
  return (
    <>
      <div className="pair">
        <DraftInput
          field="bornAt"
          label={order.bornAt}
          hint={order.bornAtHint}
          type="datetime-local"
        />
        <DraftInput field="lastFeedAt" label={order.lastFeedAt} type="datetime-local" />
      </div>
      <div className="pair">
        <DraftSelect
          field="feeding"
          label={order.feeding}
          options={['', ...FEEDINGS]}
          nameOf={(feeding) => order.feedings[feeding || 'notAsked']}
        />
        <DraftSelect
          field="transfused"
          label={order.transfused}
          options={['', 'no', 'yes']}
          nameOf={(answer) => order.answers[answer || 'notAsked']}
        />
      </div>
    </>
  )
}
