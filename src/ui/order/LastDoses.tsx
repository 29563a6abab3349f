import { askedMoments } from '../../app/order/draftMoments.ts'
import { sittingsOf } from '../../core/series/sittings.ts'
import { useServices } from '../shared/appContext.tsx'
import { MomentField } from '../shared/MomentField.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { fieldId, useDraft } from './useDraft.ts'

/**
 * For every drug level that is ordered: when its last dose was. Left empty it is charted as not known. Of a trough when
 * the next dose is due, of a peak when the dose or the infusion was over.
 */
export function LastDoses() {
  const { draft, edit, errorOf } = useDraft()
  const { site, testName } = useServices()
  const { texts, fill } = useTexts()
  const ordered = sittingsOf(draft.tests, site.catalogue).flatMap(({ tests }) => tests)
  const asked = [...new Set(ordered)].filter((code) =>
    site.catalogue.doses?.some(({ tests }) => tests.includes(code)),
  )
  const counted = askedMoments(draft.tests, site.catalogue)
  if (asked.length + counted.length === 0) return null
  return (
    <div className="pair">
      {asked.map((code, index) => (
        <MomentField
          key={code}
          {...(index === 0 && { id: fieldId('lastDoses') })}
          label={fill(texts.order.lastDose, { test: testName(code) })}
          hint={texts.order.lastDoseHint}
          error={index === 0 ? errorOf('lastDoses') : undefined}
          value={draft.lastDoses[code] ?? ''}
          onChange={(typed) => edit({ lastDoses: { ...draft.lastDoses, [code]: typed } })}
        />
      ))}
      {counted.map((moment, index) => (
        <MomentField
          key={moment}
          {...(asked.length + index === 0 && { id: fieldId('lastDoses') })}
          label={fill(texts.order.momentOf, { moment: site.texts.note.words.moment[moment] })}
          hint={texts.order.momentHint}
          error={asked.length + index === 0 ? errorOf('lastDoses') : undefined}
          value={draft.moments[moment] ?? ''}
          onChange={(typed) => edit({ moments: { ...draft.moments, [moment]: typed } })}
        />
      ))}
    </div>
  )
}
