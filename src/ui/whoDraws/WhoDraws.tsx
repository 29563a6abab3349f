import { useState } from 'react'
import { whoDraws as stateOf } from '../../app/site/whoDraws.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { WhoDrawsForm } from './WhoDrawsForm.tsx'
import './whoDraws.css'

/** Says who draws here, and lets it be said anew; what an earlier shift said is asked about. */
export function WhoDraws() {
  const settings = useApp((s) => s.settings)
  const actions = useActions()
  const { now_ms } = useServices()
  const { texts, fill } = useTexts()
  const { whoDraws: t } = texts
  const [asking, setAsking] = useState<'correct' | 'anew'>()
  const { collectorName: name, collectorInitials: initials, siteName } = settings
  const state = stateOf(settings, now_ms())
  const line = {
    unsaid: t.unsaid,
    old: fill(t.old, { name }),
    said: fill(t.said, { name, initials }),
  }[state]
  return (
    <section className="whoDraws" aria-label={t.title}>
      <p>
        {line} {state === 'said' && siteName !== '' && <span className="soft">{siteName}</span>}
      </p>
      {!asking && (
        <div className="rowOfButtons">
          {state === 'old' && (
            <button
              type="button"
              className="button"
              onClick={() => actions.sayWhoDraws({ name, initials, siteName })}
            >
              {fill(t.still, { name })}
            </button>
          )}
          <button
            type="button"
            className="button quiet"
            onClick={() => setAsking(state === 'said' ? 'correct' : 'anew')}
          >
            {t[state === 'unsaid' ? 'say' : 'change']}
          </button>
        </div>
      )}
      {asking && (
        <WhoDrawsForm correct={asking === 'correct'} onSaid={() => setAsking(undefined)} />
      )}
    </section>
  )
}
