import { whoDraws as stateOf } from '../../app/site/whoDraws.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { WhoDrawsForm } from './WhoDrawsForm.tsx'
import './whoDraws.css'

/** Before the draw of a patient begins: who draws, where nobody of this shift has said so. */
export function AskWhoDraws() {
  const settings = useApp((s) => s.settings)
  const actions = useActions()
  const { now_ms } = useServices()
  const { texts, fill } = useTexts()
  const { whoDraws: t } = texts
  const { collectorName: name, collectorInitials: initials, siteName } = settings
  return (
    <section className="askWhoDraws" aria-labelledby="ask-who-draws">
      <h2 id="ask-who-draws">{t.ask}</h2>
      <p>{t.askAbout}</p>
      {stateOf(settings, now_ms()) === 'old' && (
        <button
          type="button"
          className="button go"
          onClick={() => actions.sayWhoDraws({ name, initials, siteName })}
        >
          {fill(t.still, { name })}
        </button>
      )}
      <WhoDrawsForm />
    </section>
  )
}
