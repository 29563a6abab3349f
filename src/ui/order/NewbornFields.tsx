import { isCard } from '../../core/plan/plan.ts'
import { FEEDINGS } from '../../core/order/order.ts'
import { findTest } from '../../core/catalogue/catalogue.ts'
import { useServices } from '../shared/appContext.tsx'
import { MomentField } from '../shared/MomentField.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { DraftSelect } from './DraftInput.tsx'
import { fieldId, useDraft } from './useDraft.ts'

/** What goes with a newborn card, where one is ordered. Left open it is asked at the cot, or charted as not asked. */
export function NewbornFields() {
  const { draft, edit, errorOf } = useDraft()
  const { site } = useServices()
  const { order } = useTexts().texts
  const isOrdered = draft.tests.some((code) => findTest(site.catalogue, code)?.accepts.some(isCard))
  if (!isOrdered) return null
  return (
    <>
      <div className="pair">
        <MomentField
          id={fieldId('bornAt')}
          label={order.bornAt}
          hint={order.bornAtHint}
          error={errorOf('bornAt')}
          value={draft.bornAt}
          onChange={(bornAt) => edit({ bornAt })}
        />
        <MomentField
          id={fieldId('lastFeedAt')}
          label={order.lastFeedAt}
          error={errorOf('lastFeedAt')}
          value={draft.lastFeedAt}
          onChange={(lastFeedAt) => edit({ lastFeedAt })}
        />
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
