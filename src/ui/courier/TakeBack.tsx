import { useState } from 'react'
import type { SentPack } from '../../core/courier/sentPacks.ts'
import { useActions } from '../shared/appContext.tsx'
import { useCourierTexts } from './useCourierTexts.ts'

/** Said in error, behind one more press. */
export function TakeBack({ pack }: { readonly pack: Pick<SentPack, 'act' | 'specimens'> }) {
  const actions = useActions()
  const { texts } = useCourierTexts()
  const [isAsked, setAsked] = useState(false)
  if (!isAsked) {
    return (
      <button type="button" className="button quiet" onClick={() => setAsked(true)}>
        {texts.back}
      </button>
    )
  }
  return (
    <div className="warnBox">
      <p>{texts.backSure}</p>
      <div className="rowOfButtons">
        <button
          type="button"
          className="button stop"
          onClick={() => {
            setAsked(false)
            void actions.courier.takeBack(pack)
          }}
        >
          {texts.backYes}
        </button>
        <button type="button" className="button" onClick={() => setAsked(false)}>
          {texts.backNo}
        </button>
      </div>
    </div>
  )
}
