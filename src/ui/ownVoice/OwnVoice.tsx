import { whoDraws as stateOf } from '../../app/site/whoDraws.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { ForgetVoice } from './ForgetVoice.tsx'
import { KnownVoice } from './KnownVoice.tsx'
import './ownVoice.css'

/** What this device has learned of the voice of whoever draws now, and the ways to delete it. */
export function OwnVoice() {
  const settings = useApp((s) => s.settings)
  const { own, others } = useApp((s) => s.ownVoice)
  const { ownVoice } = useActions()
  const { now_ms } = useServices()
  const { texts, fill } = useTexts()
  const t = texts.ownVoice
  const isSaid = stateOf(settings, now_ms()) === 'said'
  // Of whom the settings name from an earlier shift nothing is shown, so they are one of the others.
  const hidden = others + (!isSaid && own ? 1 : 0)
  return (
    <div className="ownVoice">
      {!isSaid && <p>{t.sayWho}</p>}
      {isSaid && !own && <p>{t.nothing}</p>}
      {isSaid && own && <KnownVoice voice={own} />}
      {isSaid && own && (
        <ForgetVoice
          label={t.forget}
          about={t.forgetAbout}
          onForget={() => void ownVoice.forgetMine()}
        />
      )}
      {hidden > 0 && <p className="soft">{fill(t.others, { n: hidden })}</p>}
      {hidden > 0 && (
        <ForgetVoice
          label={t.forgetAll}
          about={t.forgetAllAbout}
          onForget={() => void ownVoice.forgetAll()}
        />
      )}
    </div>
  )
}
