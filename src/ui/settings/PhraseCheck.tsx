import { TextField } from '../shared/TextField.tsx'
import { useState } from 'react'
import type { SyntheticEvent } from 'react'
import type { TrialNote } from '../../app/voice/phraseTrial.ts'
import { useServices } from '../shared/appContext.tsx'
import { SelectField } from '../shared/SelectField.tsx'
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
        <SelectField
          label={settings.phraseFor}
          options={commands.map((command) => command.key)}
          nameOf={(each) => commands.find((command) => command.key === each)?.label ?? each}
          value={key}
          onChange={setKey}
        />
        <TextField
          label={settings.wording}
          hint={settings.wordingHint}
          value={typed}
          onChange={setTyped}
        />
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
      {notes.map(({ weight, text }, i) => (
        <li key={i} className={weight === 'error' ? 'error' : 'soft'}>
          {fill(settings.weights[weight], { text })}
        </li>
      ))}
    </ul>
  )
}
