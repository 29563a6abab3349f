import { useState } from 'react'
import type { SyntheticEvent } from 'react'
import type { TrialNote } from '../../app/voice/phraseTrial.ts'
import { useServices } from '../shared/appContext.tsx'
import { Field } from '../shared/Field.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface Tried {
  readonly phrase: string
  readonly notes: readonly TrialNote[]
}

/** Tries a wording for a command before a site puts it into its phrases file. */
export function PhraseCheck() {
  const { commands, tryPhrase } = useServices().phraseTrial
  const { settings } = useTexts().texts
  const [key, setKey] = useState(commands[0]?.key ?? '')
  const [typed, setTyped] = useState('')
  const [tried, setTried] = useState<Tried>()
  async function submit(event: SyntheticEvent): Promise<void> {
    event.preventDefault()
    const phrase = typed.trim()
    if (!phrase) return
    setTried({ phrase, notes: await tryPhrase(key, phrase) })
  }
  return (
    <form className="phraseCheck" onSubmit={(event) => void submit(event)}>
      <div className="pair">
        <Field label={settings.phraseFor}>
          {(parts) => (
            <select
              {...parts}
              className="input"
              value={key}
              onChange={(event) => setKey(event.target.value)}
            >
              {commands.map((command) => (
                <option key={command.key} value={command.key}>
                  {command.label}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field label={settings.wording} hint={settings.wordingHint}>
          {(parts) => (
            <input
              {...parts}
              className="input"
              autoComplete="off"
              value={typed}
              onChange={(event) => setTyped(event.target.value)}
            />
          )}
        </Field>
      </div>
      <button type="submit" className="button">
        {settings.checkWording}
      </button>
      <div role="status">{tried && <Answer {...tried} />}</div>
    </form>
  )
}

function Answer({ phrase, notes }: Tried) {
  const { texts, fill } = useTexts()
  const { settings } = texts
  if (notes.length === 0) return <p>{fill(settings.wordingGood, { phrase })}</p>
  return (
    <ul>
      {notes.map(({ weight, text }) => (
        <li key={text} className={weight === 'error' ? 'error' : 'soft'}>
          {fill(settings.weights[weight], { text })}
        </li>
      ))}
    </ul>
  )
}
