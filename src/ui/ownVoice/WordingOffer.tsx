import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import './ownVoice.css'

/** After a draw, where one of its wordings is often taken back: another one, if the person wants it. */
export function WordingOffer({ drawId }: { readonly drawId: string }) {
  const offer = useApp((s) => s.ownVoice.offer)
  const { ownVoice } = useActions()
  const { texts, fill } = useTexts()
  const { commands } = useServices().site.words
  if (offer?.drawId !== drawId) return null
  const t = texts.ownVoice.offer
  const labels: Readonly<Record<string, string | undefined>> = commands
  const { key, from, to, acted, takenBack } = offer
  const label = labels[key] ?? key
  return (
    <section className="wordingOffer noPrint" aria-labelledby="wording-offer">
      <h2 id="wording-offer">{t.title}</h2>
      <p>{fill(t.text, { label, from, to, acted, takenBack })}</p>
      <div className="rowOfButtons">
        <button
          type="button"
          className="button"
          onClick={() => void ownVoice.answerOffer('change')}
        >
          {fill(t.change, { to })}
        </button>
        <button
          type="button"
          className="button"
          onClick={() => void ownVoice.answerOffer('notNow')}
        >
          {t.notNow}
        </button>
        <button type="button" className="button" onClick={() => void ownVoice.answerOffer('never')}>
          {t.never}
        </button>
      </div>
    </section>
  )
}
