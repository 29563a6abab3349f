import { useState } from 'react'
import { useActions, useApp } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useHandOverTexts } from './useHandOverTexts.ts'

interface DropFormProps {
  readonly rowKey: string
  readonly onEnd: () => void
}

/** That something is not to go is an act with a name. */
export function DropForm({ rowKey, onEnd }: DropFormProps) {
  const { handOver } = useActions()
  const { texts } = useHandOverTexts()
  const [by, setBy] = useState(useApp((s) => s.settings.collectorName))
  return (
    <div className="warnBox">
      <p>{texts.dropAbout}</p>
      <TextField label={texts.dropBy} value={by} onChange={setBy} required />
      <div className="rowOfButtons">
        <button
          type="button"
          className="button stop"
          disabled={by.trim() === ''}
          onClick={() => {
            onEnd()
            void handOver.drop(rowKey, by.trim())
          }}
        >
          {texts.dropYes}
        </button>
        <button type="button" className="button" onClick={onEnd}>
          {texts.keepIt}
        </button>
      </div>
    </div>
  )
}
