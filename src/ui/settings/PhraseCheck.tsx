import { useState } from 'react'
import type { SyntheticEvent } from 'react'
import type { TrialNote } from '../../app/voice/phraseTrial.ts'
import { useServices } from '../shared/appContext.tsx'
import { Field } from '../shared/Field.tsx'

interface Tried {
  readonly phrase: string
  readonly notes: readonly TrialNote[]
}

/** Tries a wording for a command before a site puts it into its phrases file. */
export function PhraseCheck() {
  const { commands, tryPhrase } = useServices().phraseTrial
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
        <Field label="For">
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
        <Field label="New wording" hint="Three syllables or more are heard best.">
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
        Check the wording
      </button>
      <div role="status">{tried && <Answer {...tried} />}</div>
    </form>
  )
}

function Answer({ phrase, notes }: Tried) {
  if (notes.length === 0) return <p>“{phrase}” should work. Try it aloud before you rely on it.</p>
  return (
    <ul>
      {notes.map(({ weight, text }) => (
        <li key={text} className={weight === 'error' ? 'error' : 'soft'}>
          {weight === 'error' ? 'Will not work: ' : 'Take care: '}
          {text}
        </li>
      ))}
    </ul>
  )
}
