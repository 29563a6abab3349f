import { useState } from 'react'
import { useTexts } from '../shared/useTexts.ts'

interface ForgetVoiceProps {
  readonly label: string
  /** What is deleted. */
  readonly about: string
  readonly onForget: () => void
}

/** Deletes by two presses, the second of which says what goes. */
export function ForgetVoice({ label, about, onForget }: ForgetVoiceProps) {
  const [isOpen, setOpen] = useState(false)
  const { ownVoice: t } = useTexts().texts
  if (!isOpen) {
    return (
      <button type="button" className="button" onClick={() => setOpen(true)}>
        {label}
      </button>
    )
  }
  return (
    <div className="stopBox">
      <p>{about}</p>
      <div className="rowOfButtons">
        <button
          type="button"
          className="button stop"
          onClick={() => {
            setOpen(false)
            onForget()
          }}
        >
          {t.yes}
        </button>
        <button type="button" className="button" onClick={() => setOpen(false)}>
          {t.cancel}
        </button>
      </div>
    </div>
  )
}
