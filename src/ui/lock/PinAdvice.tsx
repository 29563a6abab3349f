import { useActions, useApp } from '../shared/appContext.tsx'
import { useLockTexts } from './useLockTexts.ts'

/** On the first screen of a device without a PIN. */
export function PinAdvice() {
  const isOff = useApp((s) => s.lock.state === 'off')
  const actions = useActions()
  const { text, button } = useLockTexts().texts.advice
  if (!isOff) return null
  return (
    <p className="pinAdvice">
      {text}{' '}
      <button
        type="button"
        className="button quiet"
        onClick={() => void actions.go({ name: 'settings' })}
      >
        {button}
      </button>
    </p>
  )
}
